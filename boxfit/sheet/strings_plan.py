"""How the strings run through the boxes, tier by tier, seen from above, front to the left. [mm] of paper"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from boxfit.bay import Point
from boxfit.box.wiring.figures import Electrics
from boxfit.box.wiring.strings import Laid
from boxfit.sheet.drawing.arrange import scale_words
from boxfit.sheet.drawing.board import Board, Placing
from boxfit.sheet.drawing.letters import cut_to, width_of
from boxfit.sheet.drawing.marks import Circle, Drawing, Line, Mark, Text
from boxfit.sheet.drawing.paper import A0, A1, A2, A3, Paper
from boxfit.sheet.drawing.tables import ROW, note_lines, note_marks
from boxfit.sheet.drawing.title import TITLE_HEIGHT, Title

SCALES = (0.2, 0.1, 0.05)
"""ISO 5455, from memory; 1:5 where all fits A2, else smaller."""
NARROW = 16.0
"""A module's short side on paper, for its words to stand beside its line."""
GAP = 14.0
HEAD = 8.0
"""Above a panel, for its name."""
WORDS = 2.2
LONGEST_NAME = 50.0
"""Of a bay."""
NOTES = 195.0
CAUTION = "High voltage kills: trained people only, to local codes; isolate, lock off, prove dead."


@dataclass(frozen=True)
class Panel:
    """One tier of a box: its name, its modules, and their extent in the car [mm]."""

    name: str
    modules: tuple[Laid, ...]

    @property
    def ends(self) -> tuple[Point, Point]:
        """The lowest and the highest corner in plan [mm]."""
        lows, highs = [one.placed.low for one in self.modules], [one.placed.high for one in self.modules]
        return (
            (min(low[0] for low in lows), min(low[1] for low in lows)),
            (max(high[0] for high in highs), max(high[1] for high in highs)),
        )

    def size(self, scale: float) -> Point:
        """On paper, with its name above and at least as wide as that."""
        (x, y), (a, b) = self.ends
        return (max((a - x) * scale, width_of(self.name, WORDS)), (b - y) * scale + HEAD)


def strings_drawing(found: Electrics) -> Drawing:
    """The drawing on the smallest sheet that takes it."""
    panels = _panels(found)
    notes = note_lines(_notes(found), NOTES)
    low = 16.0 + max(TITLE_HEIGHT, ROW * len(notes)) + 6.0
    paper, scale, corners = _arranged(panels, low)
    title = Title(
        title=f"order of the strings, {found.module.name}",
        number="",
        kind="wiring plan",
        scale=scale_words(scale),
        car=found.car.name,
        tolerances="-",
        cautions=CAUTION,
    )
    board = Board(paper, title)
    board.add(note_marks(notes, (24.0, low - 4.0)))
    for panel, corner in zip(panels, corners, strict=True):
        _draw(board, found, panel, corner, scale)
    return Drawing("strings", (board.page(),))


def _head(box: str, tier: int) -> str:
    """What stands over a tier: a bay's long name is cut short, its box and tier are not.

    >>> _head("the long compartment behind the seats where once the tank was box 1", 2)
    'the long compartment behind… box 1, tier 2'
    """
    bay, word, number = box.rpartition(" box ")
    return f"{cut_to(bay, WORDS, LONGEST_NAME)}{word}{number}, tier {tier}"


def _panels(found: Electrics) -> tuple[Panel, ...]:
    tiers: dict[tuple[int, int], list[Laid]] = {}
    for one in found.wiring.pack.modules:
        tiers.setdefault((one.box, one.tier), []).append(one)
    return tuple(
        Panel(_head(found.boxes[box].name, tier), tuple(modules)) for (box, tier), modules in tiers.items()
    )


def _arranged(panels: Sequence[Panel], low: float) -> tuple[Paper, float, list[Point]]:
    """Sheet, scale, and the upper left corner of every panel."""
    least = min(min(one.placed.stance.size[:2]) for panel in panels for one in panel.modules)
    scales = [scale for scale in SCALES if scale * least >= NARROW] or [SCALES[0]]
    for paper in (A3, A2, A1, A0):
        for scale in scales:
            corners = _rows(panels, paper, scale, low)
            if corners is not None:
                return paper, scale, corners
    whole = Paper("long", A0.width, low + 40.0 + sum(panel.size(scales[-1])[1] + GAP for panel in panels))
    found = _rows(panels, whole, scales[-1], low)
    return whole, scales[-1], found or [(30.0, whole.height - 20.0)] * len(panels)


def _rows(panels: Sequence[Panel], paper: Paper, scale: float, low: float) -> list[Point] | None:
    """Panels in rows from the upper left; None where they do not go in."""
    left, top, right = 30.0, paper.height - 22.0, paper.width - 18.0
    x, y, deep, corners = left, top, 0.0, list[Point]()
    for panel in panels:
        wide, high = panel.size(scale)
        if x > left and x + wide > right:
            x, y, deep = left, y - deep - GAP, 0.0
        if x + wide > right or y - high < low:
            return None
        corners.append((x, y))
        x, deep = x + wide + GAP, max(deep, high)
    return corners


def _draw(board: Board, found: Electrics, panel: Panel, corner: Point, scale: float) -> None:
    """Modules, the strings' lines among them, then words where they are free."""
    (_, _), (front, left) = panel.ends

    def on_paper(x: float, y: float) -> Point:
        return (corner[0] + (front - x) * scale, corner[1] - HEAD - (left - y) * scale)

    def flat(one: Laid) -> Point:
        return on_paper(one.at[0], one.at[1])

    board.add([Text(panel.name, (corner[0], corner[1] - 3.0), WORDS)])
    own = {one.number: one for one in panel.modules}
    for one in panel.modules:
        board.add(_rectangle(on_paper(*one.placed.low[:2]), on_paper(*one.placed.high[:2])))
        board.add([Circle(flat(one), 0.8, "visible", True)])
    for string in found.wiring.pack.strings:
        for a, b in pairwise(string):
            if a in own and b in own:
                board.add([Line(flat(own[a]), flat(own[b]), "visible", 0.5)])
    for one in panel.modules:
        ends = (on_paper(*one.placed.low[:2]), on_paper(*one.placed.high[:2]))
        for words in _words(found, one, own):
            board.place(_ways(words, ends))


def _rectangle(one: Point, other: Point) -> Iterator[Mark]:
    corners = (one, (other[0], one[1]), other, (one[0], other[1]))
    for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
        yield Line(start, end, "adjacent")


def _words(found: Electrics, one: Laid, own: dict[int, Laid]) -> Iterator[str]:
    """Number, string and place; where the string begins, ends, or comes from and goes to elsewhere."""
    strings = found.wiring.pack.strings
    number, string = next((n, s) for n, s in enumerate(strings, start=1) if one.number in s)
    place = string.index(one.number)
    yield f"{one.number}: {number}.{place + 1}"
    before = string[place - 1] if place else None
    after = string[place + 1] if place + 1 < len(string) else None
    if before is None:
        yield "− minus"
    elif before not in own:
        yield f"from {before}"
    if after is None:
        yield "+ plus"
    elif after not in own:
        yield f"to {after}"


def _ways(words: str, ends: tuple[Point, Point]) -> Iterator[Placing]:
    """Places inside the module, corners first, level and then upright."""
    (a, b), (c, d) = ends
    low, high = (min(a, c), min(b, d)), (max(a, c), max(b, d))
    wide = width_of(words, WORDS)
    for rows in (0, 1, 2, 3, 4):
        for level in (high[1] - 3.2 - 3.0 * rows, low[1] + 1.2 + 3.0 * rows):
            for x in (low[0] + 1.0, high[0] - 1.0 - wide, (low[0] + high[0] - wide) / 2.0):
                yield Placing(Text(words, (x, level), WORDS))
    for column in range(5):
        for x in (low[0] + 3.4 + 3.0 * column, high[0] - 1.4 - 3.0 * column):
            for y in (low[1] + 1.0, high[1] - 1.0 - wide):
                yield Placing(Text(words, (x, y), WORDS, "left", 90.0))


def _notes(found: Electrics) -> list[str]:
    """Every string in words, what lies between neighbours, and what the words in the modules mean."""
    pack = found.wiring.pack
    notes = [
        cut_to(f"string {number}: minus, {', '.join(map(str, string))}, plus", WORDS, 2.5 * NOTES)
        for number, string in enumerate(pack.strings, start=1)
    ]
    notes.append(
        "in a module: its number, its string and its place in that from minus; dots are its terminals"
    )
    if pack.steepest:
        notes.append(
            f"between touching modules at most {found.touching:.1f} V from like terminal to like terminal, "
            f"{found.touching_live:.1f} V between any live parts, full"
        )
    proven = "proven to be the least" if pack.proven else "not proven to be the least"
    notes.append(
        f"links square to the car {pack.link / 1000.0:.2f} m, {proven}; front of the car to the left"
    )
    notes.append(CAUTION)
    return notes
