"""The single-line diagram of the pack: strings, boxes, link cables, what cuts it off, and what it feeds.

Symbols after IEC 60617, from memory; box frames are boundaries, drawn with dashes and dots.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from boxfit.box.wiring.figures import Electrics
from boxfit.box.wiring.wiring import Run
from boxfit.sheet.drawing.board import Board
from boxfit.sheet.drawing.letters import cut_to, wrapped
from boxfit.sheet.drawing.marks import Drawing, Line, Mark, Text
from boxfit.sheet.drawing.paper import A0, A1, A2, A3, Paper
from boxfit.sheet.drawing.tables import note_lines, note_marks
from boxfit.sheet.drawing.title import Title
from boxfit.sheet.line_columns import (
    COLUMN,
    LANE,
    LINK,
    NAME,
    Column,
    Crossing,
    Frame,
    crossings_of,
    frames_of,
)
from boxfit.sheet.line_drive import DRIVE, drive_marks
from boxfit.sheet.symbols import BATTERY, CELL, IN_LINE, battery, chassis, fuse, joined, plug

LEFT, RIGHT, MINUS = 24.0, 16.0, 94.0
"""Where the diagram begins, what stays free at its right, and the level of the minus line."""
BAND = 8.0
"""Between lines and modules, without the lanes."""
ABOVE = 35.0
"""What stands above the plus line, and the frame."""
GROUP, SLOT = 28.0, 13.0
"""Height of a group of modules, and of a disconnect or a fuse."""
WORDS = 1.9
NOTES = 195.0
"""Width of the notes."""
CAUTION = (
    "High voltage kills: trained people only, to local codes. For orientation: a licensed person designs it."
)


@dataclass(frozen=True)
class Levels:
    """Heights on the sheet: lines, lanes and where things stand in a column."""

    minus: float
    plus: float
    stack: float

    @property
    def groups(self) -> tuple[float, float]:
        """Middles of the two places for modules."""
        return (self.stack + GROUP / 2.0, self.stack + 1.5 * GROUP + SLOT)

    @property
    def plugs(self) -> tuple[float, float]:
        """Where a disconnect opens between the two, or after the last."""
        return (self.stack + GROUP + SLOT / 2.0, self.stack + 2.0 * GROUP + 1.5 * SLOT)

    @property
    def fuse(self) -> float:
        """Where the fuse of a string stands."""
        return self.stack + 2.0 * GROUP + 2.5 * SLOT

    @property
    def top(self) -> float:
        """Where a column ends."""
        return self.stack + 2.0 * GROUP + 3.0 * SLOT


def levels_for(lanes: int, minus: float = MINUS) -> Levels:
    """With so many lanes above and below the modules, from the minus line up."""
    band = BAND + LANE * lanes
    stack = minus + band
    return Levels(minus, stack + 2.0 * GROUP + 3.0 * SLOT + band, stack)


def single_line_drawing(found: Electrics) -> Drawing:
    """The diagram on the smallest sheet that takes it, A3 at least."""
    frames = frames_of(found, LEFT + DRIVE + LINK)
    crossings = crossings_of(frames)
    levels = levels_for(len(crossings))
    title = Title(
        title=f"single-line diagram, {found.module.name}",
        number="",
        kind="circuit diagram",
        scale="none",
        car=found.car.name,
        tolerances="-",
        cautions=CAUTION,
    )
    high = levels.plus + ABOVE
    paper = _paper(frames[-1].right + RIGHT, high)
    levels = levels_for(len(crossings), MINUS + (paper.height - high) / 2.0)
    board = Board(paper, title)
    board.add(drive_marks(found, LEFT, (levels.minus, levels.plus)))
    board.add(_poles(found, frames, levels))
    for frame in frames:
        board.add(_frame(found, frame, levels))
        for column in frame.columns:
            board.add(_column(found, column, levels))
    for crossing in crossings:
        board.add(_crossing(found, crossing, levels))
    board.add(note_marks(note_lines(_notes(found), NOTES), (LEFT - 1.0, MINUS - 24.0)))
    return Drawing("single-line", (board.page(),))


def _paper(width: float, height: float) -> Paper:
    papers = (A3, A2, A1, A0)
    fits = (one for one in papers if one.width >= width and one.height >= height)
    return next(fits, Paper("long", max(width, A0.width), max(height, A0.height)))


def _poles(found: Electrics, frames: tuple[Frame, ...], levels: Levels) -> Iterator[Mark]:
    """The plus and the minus line as far as strings end or begin, with the cables between the boxes."""
    start = LEFT + DRIVE
    for level, name in ((levels.plus, "plus"), (levels.minus, "minus")):
        ends = [
            column.x
            for frame in frames
            for column in frame.columns
            if (column.is_last if name == "plus" else column.is_first)
        ]
        yield Line((start, level), (max(ends), level), "visible")
    edges = [start, *(frame.right for frame in frames)]
    for left, frame, run in zip(edges, frames, _runs(found), strict=False):
        if run is None:
            continue
        for name, level in (("plus", levels.plus), ("minus", levels.minus)):
            if words := _cable_words(found, run, name):
                middle = (left + frame.left) / 2.0
                for place, line in enumerate(words):
                    yield Text(line, (middle, level + 1.2 + 3.4 * (len(words) - 1 - place)), WORDS, "middle")


def _runs(found: Electrics) -> list[Run | None]:
    """The cables before each box of the chain; none before the first where no inverter is told."""
    runs: list[Run | None] = list(found.wiring.runs)
    return runs if found.wiring.inverter is not None else [None, *runs]


def _cable_words(found: Electrics, run: Run, name: str) -> list[str]:
    """Section and length of a pole's cables."""
    own = [one for one in run.cables if one.conductor.what == name]
    if not own:
        return []
    count = f"{len(own)} x " if len(own) > 1 else ""
    lengths = [one.route.length for one in own if one.route]
    words = [f"{count}{found.wiring.cable.section:g} mm²"]
    return [*words, f"{max(lengths) / 1000.0:.2f} m"] if lengths else words


def _frame(found: Electrics, frame: Frame, levels: Levels) -> Iterator[Mark]:
    """A box: its boundary, its name and energy above, and its bond to the body."""
    low, high = levels.minus - 6.0, levels.plus + 6.0
    corners = ((frame.left, low), (frame.right, low), (frame.right, high), (frame.left, high))
    for one, other in zip(corners, corners[1:] + corners[:1], strict=True):
        yield Line(one, other, "centre")
    box = found.boxes[frame.box]
    yield Text(box.name, (frame.left, high + 5.0), NAME)
    yield Text(f"{box.modules} modules, {box.energy:.3g} kWh", (frame.left, high + 1.4), WORDS)
    at = (frame.left + 5.0, low - 4.0)
    yield Line((at[0], low), at, "visible")
    yield from chassis(at)


def _column(found: Electrics, column: Column, levels: Levels) -> Iterator[Mark]:
    """Modules, disconnect and fuse of a column, and the line through them."""
    x, pieces = column.x, list[float]()
    for modules, middle in zip(column.groups, levels.groups, strict=False):
        yield from battery((x, middle))
        yield from _words(found, modules, (x + CELL + 1.3, middle))
        pieces += [middle - BATTERY, middle + BATTERY]
    plugs = [levels.plugs[0]] if len(column.groups) > 1 else [levels.plugs[1]] if column.plug_above else []
    for middle in plugs:
        yield from plug((x, middle))
        missing = "" if found.boxes[column.box].has_disconnect else ", no place"
        yield Text(f"S{column.number}{missing}", (x + 3.5, middle - 0.9), WORDS)
        pieces += [middle - IN_LINE, middle + IN_LINE]
    if column.is_last and len(found.wiring.pack.strings) > 1:
        yield from fuse((x, levels.fuse), True)
        yield Text(f"F{column.number}", (x + 3.5, levels.fuse - 0.9), WORDS)
        pieces += [levels.fuse - IN_LINE, levels.fuse + IN_LINE]
    bottom = levels.minus if column.is_first else levels.stack
    top = levels.plus if column.is_last else levels.top
    ends = [bottom, *sorted(pieces), top]
    for low, high in zip(ends[::2], ends[1::2], strict=True):
        yield Line((x, low), (x, high), "visible")
    if column.is_first:
        yield joined((x, levels.minus))
    if column.is_last:
        yield joined((x, levels.plus))


def _words(found: Electrics, modules: tuple[int, ...], at: tuple[float, float]) -> Iterator[Text]:
    """The numbers of modules from minus to plus, and their volts, beside a battery."""
    room = COLUMN - CELL - 10.0
    lines = wrapped(", ".join(map(str, modules)), WORDS, room)
    lines = lines if len(lines) <= 6 else [*lines[:5], cut_to(f"{lines[5]} …", WORDS, room)]
    lines.append(f"{len(modules) * found.module.voltage.full:.1f} V")
    top = at[1] + (len(lines) / 2.0) * 3.1 - 2.4
    for place, words in enumerate(lines):
        yield Text(words, (at[0], top - 3.1 * place), WORDS)


def _crossing(found: Electrics, crossing: Crossing, levels: Levels) -> Iterator[Mark]:
    """A string that runs on: up, along its lane, down beside the other column and up into it."""
    start, end = crossing.start, crossing.end
    high = levels.top + BAND / 2.0 + LANE * crossing.lane
    low = levels.stack - BAND / 2.0 - LANE * crossing.lane
    beside = end.x - 7.0
    way = (
        (start.x, levels.top),
        (start.x, high),
        (beside, high),
        (beside, low),
        (end.x, low),
        (end.x, levels.stack),
    )
    for one, other in pairwise(way):
        yield Line(one, other, "visible")
    pair = (start.groups[-1][-1], end.groups[0][0])
    lengths = [
        one.route.length
        for one in found.wiring.cables
        if one.conductor.between == pair and one.route is not None
    ]
    if lengths:
        middle = (min(start.x, beside) + max(start.x, beside)) / 2.0
        words = f"{found.wiring.cable.section:g} mm², {sum(lengths) / 1000.0:.2f} m"
        yield Text(words, _clear(found, crossing, (middle, high)), WORDS - 0.3, "middle")


def _clear(found: Electrics, crossing: Crossing, at: tuple[float, float]) -> tuple[float, float]:
    """Above the lane, in the gap before the box that is further from the inverter."""
    chain = found.wiring.chain
    last = max(crossing.start, crossing.end, key=lambda one: chain.index(one.box))
    frames = {frame.box: frame for frame in frames_of(found, LEFT + DRIVE + LINK)}
    return (frames[last.box].left - LINK / 2.0, at[1] + 0.8)


def _notes(found: Electrics) -> list[str]:
    """What the letters mean, with volts on either side of what opens."""
    split, volts = found.split, found.volts
    notes = [
        f"string {volts.empty:.1f} V empty, {volts.nominal:.1f} V nominal, {volts.full:.1f} V full; volts "
        "above are full",
        f"K1, K2 contactors in both poles, K3 with R1 charges slowly first: {volts.full:.1f} V behind them",
        "F fuses: the main one and one to a string; for the short-circuit current, by a licensed person",
    ]
    if split.after:
        notes.append(
            f"S service disconnects: {split.volts_before:.1f} V and {split.volts_after:.1f} V stay on either "
            "side"
        )
    if found.insulation:
        notes.append(
            f"R iso isolation monitor: at least {found.insulation.isolation / 1000.0:.1f} kohm, "
            f"{found.insulation.isolation_together / 1000.0:.1f} kohm with the alternating side joined; "
            "every box bonded to the body, under 0.1 ohm"
        )
    notes.append(CAUTION)
    return notes
