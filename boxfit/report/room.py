"""How much a bay holds, in litres."""

from math import pi

from boxfit.bay import Bay, Block, Keepout

LITRE = 1e6
"""Cubic millimetres [mm3] in a litre."""


def outline_area(outline: tuple[tuple[float, float], ...]) -> float:
    """Area [mm2] within a counter-clockwise outline, by the shoelace rule.

    >>> outline_area(((0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (0.0, 10.0)))
    200.0
    """
    pairs = zip(outline, (*outline[1:], outline[0]), strict=True)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2


def surveyed_litres(bay: Bay) -> float:
    """The room as surveyed [l], keep-outs included."""
    return outline_area(bay.room.outline) * (bay.room.top - bay.room.floor) / LITRE


def usable_litres(bay: Bay) -> float:
    """The room [l] left after the distance a box keeps from walls, floor and top; keep-outs not taken off.

    Exact for outlines without inward corners, otherwise to a part in a thousand (the distance round an
    inward corner is an arc, taken in 64 chords a quarter).
    """
    from shapely import Polygon

    height = bay.room.top - bay.room.floor - 2 * bay.distance
    area: float = Polygon(bay.room.outline).buffer(-bay.distance, quad_segs=64).area
    return area * max(height, 0.0) / LITRE


def keepout_litres(keepout: Keepout) -> float:
    """The keep-out's own volume [l], wherever it lies."""
    solid = keepout.solid
    if isinstance(solid, Block):
        length, width, height = (high - low for low, high in zip(solid.low, solid.high, strict=True))
        return length * width * height / LITRE
    square = sum((end - start) ** 2 for start, end in zip(solid.start, solid.end, strict=True))
    return float(pi / 4 * solid.diameter**2 * square**0.5 / LITRE)
