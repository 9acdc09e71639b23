"""Hold-downs: what presses the modules of every tier down, and keeps them from sliding.

Over each tier bars press on the strips of the modules' upper faces where that is allowed; packers fill what
is left between modules and walls. Placed by rule and checked against all that a tier holds; what cannot be
placed is told with what would make room. Whether it holds in a crash is for the sums of retention and for an
engineer: a working aid.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from itertools import count, pairwise
from math import ceil

from boxfit.bay import Bay, Block, BoxRules
from boxfit.box.fitting import Fastener, Fittings, Strip
from boxfit.box.hold_down_bars import Bar, Maker
from boxfit.box.hold_down_place import place_of
from boxfit.box.hold_down_section import PAD, Section, gap_remedy, section_of, spanning
from boxfit.box.hold_lines import Hold, Line, holds_of, kept_free, lines_of
from boxfit.box.hold_yield import shortened
from boxfit.box.packers import packers
from boxfit.box_details import ledge
from boxfit.layout import PlacedBox
from boxfit.module import Module


def hold_downs(
    name: str, bay: Bay, box: PlacedBox, module: Module, taken: tuple[Block, ...] = ()
) -> Fittings:
    """The hold-downs of the box called `name`: bars, brackets, screws, pads, packers, and what is not held.

    Modules are numbered from 1 in the box. Nothing is placed in what is `taken` [mm], such as ribs or
    cable entries: a bar ends short beside it, while enough of it is left.
    """
    section = section_of(bay.box)
    if section is None:
        note = f"{name}: no hold-downs: nothing to screw them to fits between walls and modules"
        return Fittings(notes=(f"{note}; {gap_remedy(bay.box)} would do",), fasteners=packers(box, bay.box))
    work = _Work(name, bay, box, module, section, taken)
    for tier in range(len(box.tiers)):
        work.tier(tier)
    bars = tuple(work.bars)
    return Fittings(
        strips=_named(name, tuple(strip for bar in bars for strip in bar.strips)),
        fasteners=(
            *_screws(bars, section, bay.box),
            *_inserts(bay, bars),
            *_pads(bars),
            *packers(box, bay.box),
        ),
        notes=(*work.notes, *_printed(name, bay, bars)),
    )


@dataclass
class _Work:
    """The bars of one box as they are placed, tier by tier."""

    name: str
    bay: Bay
    box: PlacedBox
    module: Module
    section: Section
    taken: tuple[Block, ...]
    bars: list[Bar] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self._first = 1

    def tier(self, number: int) -> None:
        """Places the bars of a tier, numbered from 0, and notes what is not held."""
        tier = self.box.tiers[number]
        past = self.bay.box.liner + self.bay.box.gap - self.section.block
        holds = tuple(shortened(hold, self.taken, past) for hold in holds_of(tier, self.module, self._first))
        self._first += len(tier.modules)
        kept = kept_free(tier, self.module)
        rules = self.bay.box
        place = place_of(self.box, rules, number, (*kept, *self.taken, *self._blocks()))
        low: list[tuple[Hold, float]] = []
        blocked: list[Hold] = []
        for line in lines_of(holds):
            maker = Maker(self.section, spanning(self.section, rules), place, rules.liner + rules.gap)
            if lacking := maker.lacking(line):
                low += [(hold, lacking) for hold in line.holds]
                continue
            for bar in _placed(maker, line):
                if isinstance(bar, Bar):
                    self.bars.append(bar)
                    place = replace(place, taken=(*place.taken, *bar.blocks))
                    maker = replace(maker, place=place)
                else:
                    blocked += bar.holds
        self.notes += self._low(number, low)
        self.notes += self._blocked(number, blocked)

    def _blocks(self) -> tuple[Block, ...]:
        """What the bars placed so far fill."""
        return tuple(block for bar in self.bars for block in bar.blocks)

    def _low(self, tier: int, low: list[tuple[Hold, float]]) -> Iterator[str]:
        """Where there is no height for a bar: how much is missing, and what would make it."""
        if not low:
            return
        lacking = max(missing for _, missing in low)
        rules = self.bay.box
        bar = ledge(rules) if tier + 1 < len(self.box.tiers) else None
        # a ledge grows with the headroom until it is as high as ledges are made
        grows = ledge(replace(rules, headroom=rules.headroom + lacking + 20.0)) if bar else None
        more = lacking + (grows.height - bar.height if bar and grows else 0.0)
        headroom = ceil(rules.headroom + more - 1e-6)
        yield (
            f"{self.name}, tier {tier + 1}: {_modules([hold for hold, _ in low])} not held down:"
            f" {lacking:.1f} mm too little above for a hold-down; box.headroom = {headroom} would do"
        )

    def _blocked(self, tier: int, blocked: list[Hold]) -> Iterator[str]:
        """Where something is in a bar's way."""
        for face in sorted({hold.face for hold in blocked}):
            own = [hold for hold in blocked if hold.face == face]
            yield (
                f"{self.name}, tier {tier + 1}: {_modules(own)} not held down at the {face}: a hold-down"
                " there would meet a wall, other modules, their room or another hold-down; held.at or"
                " held.width in the module's file, or a strap of your own over the modules, may help"
            )


def _named(box: str, strips: tuple[Strip, ...]) -> tuple[Strip, ...]:
    """The strips numbered, each kind by itself."""
    numbers = {strip.kind: count(1) for strip in strips}
    return tuple(replace(strip, name=f"{box} {strip.kind} {next(numbers[strip.kind])}") for strip in strips)


def _placed(maker: Maker, line: Line) -> Iterator[Bar | Line]:
    """Bars for a line, or for pieces of it where one bar does not do; what gets none stays a line."""
    bar = maker.bar(line)
    if bar or len(line.holds) == 1:
        yield bar or line
        return
    for part in _parted(line):
        for found in _placed(maker, part):
            if isinstance(found, Bar):
                maker = replace(maker, place=replace(maker.place, taken=(*maker.place.taken, *found.blocks)))
            yield found


def _parted(line: Line) -> tuple[Line, Line]:
    """A line in two: one for each edge where it has both, else where the strips are furthest apart."""
    if len(line.sides) == 2:
        first, second = (tuple(hold for hold in line.holds if hold.side == side) for side in (1, -1))
        return Line(first), Line(second)
    holds = sorted(line.holds, key=lambda hold: hold.start)
    gaps = [after.start - before.stop for before, after in pairwise(holds)]
    cut = gaps.index(max(gaps)) + 1
    return Line(tuple(holds[:cut])), Line(tuple(holds[cut:]))


def _modules(holds: list[Hold]) -> str:
    """Which modules, runs of more than two in short.

    >>> _modules([Hold(number, "front", 0, 1, 0, 1, 0, 1, 0, 0) for number in (1, 2, 3, 5)])
    'modules 1-3, 5'
    """
    numbers = sorted({hold.module for hold in holds})
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    words = [f"{run[0]}-{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs]
    return f"module{'s' if len(numbers) > 1 else ''} {', '.join(words)}"


def _screws(bars: tuple[Bar, ...], section: Section, rules: BoxRules) -> Iterator[Fastener]:
    """Those for bars along walls and for bars from wall to wall, by length."""
    counts: dict[float, int] = {}
    for bar in bars:
        length = (spanning(section, rules) if bar.gap else section).screw_length(bar.gap)
        counts[length] = counts.get(length, 0) + bar.screws
    for length, number in sorted(counts.items()):
        what = "socket head screw ISO 4762 with small washer ISO 7092, thread locked"
        yield Fastener(what, f"M6 x {length:g}", number, "hold-downs to the blocks on the walls")


def _pads(bars: tuple[Bar, ...]) -> Iterator[Fastener]:
    """Cellular rubber under the bars, a piece for each strip, by size."""
    counts: dict[str, int] = {}
    for bar in bars:
        for hold in bar.line.holds:
            wide = min(hold.high, bar.pads[1]) - max(hold.low, bar.pads[0])
            size = f"{PAD:g} x {int(wide)} x {int(hold.stop - hold.start)} mm"
            counts[size] = counts.get(size, 0) + 1
    for size, number in sorted(counts.items()):
        yield Fastener("cellular rubber, self-adhesive", size, number, "under the hold-downs")


def _inserts(bay: Bay, bars: tuple[Bar, ...]) -> Iterator[Fastener]:
    """What the screws of a printed box go into, one for each block."""
    blocks = sum(strip.bar for bar in bars for strip in bar.strips)
    if blocks and bay.box.process == "printed":
        yield Fastener("threaded insert for plastic", "M6", blocks, "hold-down blocks")


def _printed(name: str, bay: Bay, bars: tuple[Bar, ...]) -> Iterator[str]:
    """Blocks of plastic take a thread of metal."""
    if bars and bay.box.process == "printed":
        yield f"{name}: hold-down blocks are printed apart and bonded to the walls, each with an M6 insert"
