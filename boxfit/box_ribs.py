"""Ribs of a printed box: upright ones inside its walls, low ones on its floor that modules stand on.

A printed wall insulates, so no sheet of liner goes in: what the liner would fill stiffens walls and floor
instead, and modules stand just where they would. box/ makes the ribs and weight/ weighs them; both ask here.
Figures: common practice, no source.
"""

from itertools import pairwise
from math import ceil

from boxfit.bay import Block, BoxRules
from boxfit.box_details import FIT, ledge, rib_depth
from boxfit.box_shape import Rectangle, grown, rectangles
from boxfit.surface import Outline

RIB_PITCH = 40.0
"""Ribs stand at most this far [mm] apart, so that every module lies on several; as thick as the wall."""
Span = tuple[float, float]
"""From where to where [mm]."""


def _spaces(length: float) -> int:
    """Equal spaces of at most the pitch along a length [mm]; at least one."""
    return max(1, ceil(length / RIB_PITCH - 1e-9))


def wall_ribs(outline: Outline, rules: BoxRules) -> tuple[Rectangle, ...]:
    """Plan [mm] of the ribs inside the walls of an outline, evenly along each side, none at the corners.

    >>> from boxfit.box_shape import rectangle
    >>> rules = BoxRules("petg", "printed", "rectangular", 4, 0, 22, 3, 10, 3, 4, 5, 1, 1)
    >>> wall_ribs(rectangle((0.0, 0.0), (88.0, 40.0)), rules)
    (((42.0, 4.0), (46.0, 7.0)), ((42.0, 33.0), (46.0, 36.0)))
    """
    deep, half = rib_depth(rules), rules.thickness / 2.0
    inside = grown(outline, -rules.thickness)
    found: list[Rectangle] = []
    for one, other in pairwise((*inside, inside[0])):
        axis = 0 if one[1] == other[1] else 1
        length = abs(other[axis] - one[axis])
        spaces = _spaces(length)
        # counter-clockwise: the inside lies to the left of the way round
        turned = 1.0 if (other[axis] > one[axis]) == (axis == 0) else -1.0
        if not deep or length / spaces - half <= deep:
            continue
        across = sorted((one[1 - axis], one[1 - axis] + turned * deep))
        for step in range(1, spaces):
            middle = one[axis] + (other[axis] - one[axis]) * step / spaces
            low, high = (middle - half, across[0]), (middle + half, across[1])
            found.append((low, high) if axis == 0 else (low[::-1], high[::-1]))
    return tuple(found)


def floor_ribs(outline: Outline, rules: BoxRules) -> tuple[Rectangle, ...]:
    """Plan [mm] of the ribs on the floor within an outline, each the shorter way across its part of it.

    They end where modules may begin, so that all round them a channel as wide as the gap leads to the drain.

    >>> from boxfit.box_shape import rectangle
    >>> rules = BoxRules("petg", "printed", "rectangular", 4, 0, 22, 3, 10, 3, 4, 5, 1, 1)
    >>> floor_ribs(rectangle((0.0, 0.0), (88.0, 66.0)), rules)
    (((11.0, 11.0), (15.0, 55.0)), ((42.0, 11.0), (46.0, 55.0)), ((73.0, 11.0), (77.0, 55.0)))
    """
    deep, thick = rib_depth(rules), rules.thickness
    if not deep:
        return ()
    found: list[Rectangle] = []
    for low, high in rectangles(grown(outline, -thick - deep - rules.gap)):
        size = (high[0] - low[0], high[1] - low[1])
        axis = 0 if size[0] >= size[1] else 1
        free = size[axis] - thick
        spaces = _spaces(free)
        for step in range(spaces + 1) if free > 0.0 else ():
            start = low[axis] + free * step / spaces
            ends = (start, low[1 - axis]), (start + thick, high[1 - axis])
            found.append(ends if axis == 0 else (ends[0][::-1], ends[1][::-1]))
    return tuple(found)


def wall_rib_spans(
    outlines: tuple[Outline, ...] | tuple[int, ...], rim: float, levels: tuple[float, ...], rules: BoxRules
) -> tuple[tuple[int, Span], ...]:
    """Which tiers, from 0, have ribs on their walls, and from where to where [mm] those stand.

    `rim` and `levels` (what each tier stands on) [mm] are above the outside of the floor; `outlines`, or
    anything that tells them apart, has one entry for each tier. Ribs stand on the floor, on the ledge below
    them or on a step floor, and end under the next ledge or below the lid.
    """
    if not rib_depth(rules):
        return ()
    bar = ledge(rules)
    high = bar.height if bar else 0.0
    upper = zip(pairwise(outlines), levels[1:], strict=True)
    starts = (level - (rules.thickness if same == other else 0.0) for (same, other), level in upper)
    bottoms = (rules.thickness, *starts)
    tops = (*(level - rules.thickness - high for level in levels[1:]), rim - FIT)
    spans = enumerate(zip(bottoms, tops, strict=True))
    return tuple((tier, (bottom, top)) for tier, (bottom, top) in spans if top > bottom)


def rib_blocks(
    outlines: tuple[Outline, ...], bottom: float, rim: float, levels: tuple[float, ...], rules: BoxRules
) -> tuple[Block, ...]:
    """Every rib of a box: those on the floor first. `bottom` [mm] is the outside of the floor in the car.

    `rim` and `levels` [mm] count from there.
    """
    foot = (rules.thickness, rules.thickness + rib_depth(rules))
    standing = [(plan, foot) for plan in floor_ribs(outlines[0], rules)]
    for tier, span in wall_rib_spans(outlines, rim, levels, rules):
        standing += [(plan, span) for plan in wall_ribs(outlines[tier], rules)]
    return tuple(Block((*low, bottom + span[0]), (*high, bottom + span[1])) for (low, high), span in standing)
