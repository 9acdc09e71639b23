"""Where main cables leave the boxes: at glands and cable housings, or where these would have to be. [mm]"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from boxfit.bay import Block
from boxfit.box.fitting import DIRECTIONS, Bought
from boxfit.box.outside.cables import GLAND_LENGTH, Cable, Link, through
from boxfit.box.outside.housing import HOUSED, Main
from boxfit.box.parts import BoxParts
from boxfit.box.wiring.way import End, Way
from boxfit.layout import PlacedBox
from boxfit.standards.cable_entry import STRIPPED_END, gland_for

BELOW_RIM = 40.0
"""A cable whose entry has no place is taken to leave so far below the top of the box (common practice)."""


@dataclass(frozen=True)
class Entry:
    """A cable's way out of a box. `own` is the body of the gland or housing it comes from.

    `is_placed` is False where the box has no room for it: then it is taken in the middle of the wall.
    """

    end: End
    own: Block | None
    is_placed: bool


def entries_to(parts: BoxParts, box: PlacedBox, link: Link, cable: Cable, wanted: int) -> tuple[Entry, ...]:
    """As many entries as are wanted for a link: those the box has, then such as would have to be found."""
    there = [one for one in parts.fittings.bought if one.name.endswith(f"to {link.to}")]
    found: list[Entry] = []
    for one in there:
        if one.kind == "cable gland":
            found.append(_gland(one))
        elif one.kind in HOUSED:
            found += _housing(one, through(cable, link))
    missing = wanted - len(found)
    return (*found[:wanted], *_supposed(box, link, cable, max(0, missing), len(found)))


def placed_entries(parts: BoxParts, link: Link, cable: Cable) -> int:
    """How many cables the entries of a box towards a link take."""
    there = [one.kind for one in parts.fittings.bought if one.name.endswith(f"to {link.to}")]
    return there.count("cable gland") + 2 * cable.to_a_pole * sum(kind in HOUSED for kind in there)


def _way(bought: Bought) -> Way:
    way = DIRECTIONS[bought.looks]
    axis = next(axis for axis in range(3) if way[axis])
    return axis, int(way[axis])


def _gland(bought: Bought) -> Entry:
    """From the outer end of the gland on; what is left of the straight stretch."""
    axis, sign = _way(bought)
    at = list(bought.at)
    at[axis] = bought.body.high[axis] if sign > 0 else bought.body.low[axis]
    straight = max(0.0, STRIPPED_END - (bought.body.high[axis] - bought.body.low[axis]))
    return Entry(End((at[0], at[1], at[2]), (axis, sign), straight), bought.body, True)


def _housing(bought: Bought, main: Main) -> Iterator[Entry]:
    """Side by side out of the face of the housing before which room is kept, where its glands are."""
    body, keeps = bought.body, bought.keeps
    over = [(keeps.high[axis] - body.high[axis], (axis, 1)) for axis in range(3)] + [
        (body.low[axis] - keeps.low[axis], (axis, -1)) for axis in range(3)
    ]
    _, (axis, sign) = max(over, key=lambda one: one[0])
    outwards, _ = _way(bought)
    across = next(k for k in range(3) if k not in (axis, outwards))
    at = [(low + high) / 2.0 for low, high in zip(body.low, body.high, strict=True)]
    middle, at[axis] = at[across], body.high[axis] if sign > 0 else body.low[axis]
    for number in range(main.count):
        at[across] = middle + (number - (main.count - 1) / 2.0) * main.pitch
        yield Entry(End((at[0], at[1], at[2]), (axis, sign), STRIPPED_END), body, True)


def _supposed(box: PlacedBox, link: Link, cable: Cable, count: int, there: int) -> Iterator[Entry]:
    """In the middle of the wall that looks most towards the other end, side by side, as if in glands."""
    middle = [(low + high) / 2.0 for low, high in zip(box.low, box.high, strict=True)]
    ways: Sequence[Way] = ((0, 1), (0, -1), (1, 1), (1, -1))
    axis, sign = max(ways, key=lambda way: (link.at[way[0]] - middle[way[0]]) * way[1])
    apart = gland_for(cable.across).across
    at = list(middle)
    at[axis] = (box.high[axis] if sign > 0 else box.low[axis]) + sign * GLAND_LENGTH
    at[2] = max(box.high[2] - BELOW_RIM, middle[2])
    for number in range(count):
        at[1 - axis] = middle[1 - axis] + apart * (number - (count - 1) / 2.0 + (there > 0))
        straight = STRIPPED_END - GLAND_LENGTH
        yield Entry(End((at[0], at[1], at[2]), (axis, sign), straight), None, False)
