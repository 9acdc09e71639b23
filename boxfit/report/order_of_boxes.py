"""In what order the boxes of one bay go in, in words for the summary."""

from collections.abc import Iterator
from itertools import permutations

from boxfit.bay import Bay
from boxfit.car import Car
from boxfit.layout import Layout, PlacedBox
from boxfit.search.cuboids import Cuboid, cuboids, way_round


def order_lines(car: Car, layout: Layout) -> tuple[str, ...]:
    """A sentence for every bay with several boxes, and one for every box that stands over another."""
    bays = {bay.name: bay for bay in car.bays}
    return tuple(
        line
        for filled in layout.bays
        if len(filled.boxes) > 1
        for line in _of_bay(bays[filled.name], filled.boxes)
    )


def _of_bay(bay: Bay, boxes: tuple[PlacedBox, ...]) -> Iterator[str]:
    fills = [cuboids(box, bay.box) for box in boxes]
    order = way_round(fills, bay)
    if order is not None and bay.opening is not None:
        names = [f"box {place + 1}" for place in order]
        yield f"{bay.name}: {names[0]} goes in first, then {', then '.join(names[1:])}."
    for lower, upper in permutations(range(len(boxes)), 2):
        if _over(fills[upper], fills[lower]):
            yield (
                f"{bay.name}: box {upper + 1} stands over box {lower + 1}, whose lid is then out of reach:"
                f" fill, connect and close box {lower + 1} first. What carries box {upper + 1} is not drawn."
            )


def _over(upper: tuple[Cuboid, ...], lower: tuple[Cuboid, ...]) -> bool:
    """True where some of the one lies above some of the other."""
    return any(
        a.low[2] >= b.high[2] and all(a.low[k] < b.high[k] and b.low[k] < a.high[k] for k in (0, 1))
        for a in upper
        for b in lower
    )
