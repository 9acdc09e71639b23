"""How much a bay holds, in litres."""

from math import pi

from boxfit.bay import Bay, Block, Keepout, Shell, Surface
from boxfit.report.columns import counted
from boxfit.report.covered import covered_volume

LITRE = 1e6
"""Cubic millimetres [mm3] in a litre."""
READINGS = {"room": "the room's own bounds", "body": "metal round the room"}
"""What a surface was read as, in words."""


def outline_area(outline: tuple[tuple[float, float], ...]) -> float:
    """Area [mm2] within a counter-clockwise outline, by the shoelace rule.

    >>> outline_area(((0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (0.0, 10.0)))
    200.0
    """
    pairs = zip(outline, (*outline[1:], outline[0]), strict=True)
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2


def surveyed_litres(bay: Bay) -> float:
    """The room as surveyed [l], keep-outs included."""
    if isinstance(bay.room, Shell):
        return bay.room.volume / LITRE
    return outline_area(bay.room.outline) * (bay.room.top - bay.room.floor) / LITRE


def kept(bay: Bay) -> float:
    """What a box keeps from every surface of the room [mm]: the distance, and what the triangles are off."""
    return bay.distance + (bay.room.surface.off if isinstance(bay.room, Shell) else 0.0)


def kept_from(keepout: Keepout) -> float:
    """What a box keeps from a keep-out [mm]: its distance, and what its triangles are off."""
    return keepout.distance + (keepout.solid.off if isinstance(keepout.solid, Surface) else 0.0)


def surveyed_as(bay: Bay) -> tuple[str, ...]:
    """How the room was surveyed, and what was done to the survey on its way in, in words."""
    room = bay.room
    if not isinstance(room, Shell):
        return (f"prism of {counted(len(room.outline), 'corner')}",)
    surface = room.surface
    off = f", the true surface within {surface.off:.2g} mm of them" if surface.off else ""
    count = f"{len(surface.triangles):,} triangles"
    return (f"surface of {count}, read as {READINGS[room.reads]}{off}", *room.told)


def usable_litres(bay: Bay) -> float | None:
    """The room [l] left after the distance a box keeps from walls, floor and top; keep-outs not taken off.

    Exact for outlines without inward corners, otherwise to a part in a thousand (the distance round an
    inward corner is an arc, taken in 64 chords a quarter). None for a room of any shape: not worked out.
    """
    from shapely import Polygon

    if isinstance(bay.room, Shell):
        return None

    height = bay.room.top - bay.room.floor - 2 * bay.distance
    area: float = Polygon(bay.room.outline).buffer(-bay.distance, quad_segs=64).area
    return area * max(height, 0.0) / LITRE


def keepout_litres(keepout: Keepout) -> float:
    """The keep-out's own volume [l], wherever it lies; of a solid that moves, all it covers, to some 2 %."""
    solid = keepout.solid
    if isinstance(solid, Block):
        length, width, height = (high - low for low, high in zip(solid.low, solid.high, strict=True))
        return length * width * height / LITRE
    if isinstance(solid, Surface):
        return covered_volume(solid) / LITRE
    square = sum((end - start) ** 2 for start, end in zip(solid.start, solid.end, strict=True))
    return float(pi / 4 * solid.diameter**2 * square**0.5 / LITRE)
