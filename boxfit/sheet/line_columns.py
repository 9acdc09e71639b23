"""What stands where in a single-line diagram: columns of modules box by box, and lanes between them. [mm]"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import groupby

from boxfit.box.wiring.figures import Electrics
from boxfit.sheet.drawing.letters import width_of

COLUMN = 32.0
"""From column to column."""
LINK = 38.0
"""Between boxes, for what is written at the cables."""
INSET = 10.0
"""From the edge of a box to its first column."""
LANE = 4.5
"""Between strings that run on in another box."""
NAME = 2.2
"""Height of a box's name."""


@dataclass(frozen=True)
class Column:
    """The modules of a string in one box, from minus to plus, at `x`.

    `groups` are parted where the service disconnect opens the string; `plug_above` where it does so after the
    last of them. `number` is the string's, from 1, `place` the column's in it, from 0.
    """

    number: int
    place: int
    box: int
    x: float
    groups: tuple[tuple[int, ...], ...]
    plug_above: bool
    is_first: bool
    is_last: bool


@dataclass(frozen=True)
class Frame:
    """A box of the diagram from its left to its right edge, with its columns."""

    box: int
    left: float
    right: float
    columns: tuple[Column, ...]


@dataclass(frozen=True)
class Crossing:
    """A string that runs on in another column: from which to which, in which lane, from 0."""

    start: Column
    end: Column
    lane: int


def frames_of(found: Electrics, left: float) -> tuple[Frame, ...]:
    """The boxes from the inverter on, side by side from a left edge."""
    strings = enumerate(found.wiring.pack.strings, start=1)
    parts = [part for number, string in strings for part in _parts(found, number, string)]
    frames: list[Frame] = []
    for box in found.wiring.chain:
        own = [part for part in parts if part.box == box]
        columns = tuple(replace(part, x=left + INSET + place * COLUMN) for place, part in enumerate(own))
        wide = max(INSET / 2.0 + COLUMN * len(columns), width_of(found.boxes[box].name, NAME) + 4.0, COLUMN)
        frames.append(Frame(box, left, left + wide, columns))
        left += wide + LINK
    return tuple(frames)


def _parts(found: Electrics, number: int, string: tuple[int, ...]) -> Iterator[Column]:
    """A string in pieces, one for each stay in a box, all at 0."""
    pack, split, done = found.wiring.pack, found.split, 0
    for place, (box, stay) in enumerate(groupby(string, key=pack.box_of)):
        modules = tuple(stay)
        cut = split.before - done if split.after else 0
        inside = 0 < cut < len(modules)
        groups = (modules[:cut], modules[cut:]) if inside else (modules,)
        first, last = done == 0, done + len(modules) == len(string)
        yield Column(number, place, box, 0.0, groups, cut == len(modules), first, last)
        done += len(modules)


def crossings_of(frames: tuple[Frame, ...]) -> tuple[Crossing, ...]:
    """Where strings run on in another column, string by string."""
    columns = [column for frame in frames for column in frame.columns]
    pairs = [
        (one, other)
        for one in columns
        for other in columns
        if one.number == other.number and one.place + 1 == other.place
    ]
    ranked = sorted(pairs, key=lambda pair: (pair[0].number, pair[0].place))
    return tuple(Crossing(one, other, lane) for lane, (one, other) in enumerate(ranked))
