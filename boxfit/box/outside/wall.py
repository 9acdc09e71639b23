"""The walls of a box as places for fittings: where a hole may be, and what lies behind it."""

from dataclasses import dataclass

from boxfit.bay import Block, Vector
from boxfit.box.fitting import Looks
from boxfit.box.parts import BoxParts, Plate, Tray
from boxfit.surface import Outline

Span = tuple[float, float]
"""From where to where [mm]."""


@dataclass(frozen=True)
class Wall:
    """One side of a band of walls, its outside at `plane` [mm] along `axis`, looking up or down that axis.

    `along` and `up` [mm] are where the edge of a hole may be: clear of bends and corners. `barred` [mm] are
    levels that a hole must leave out because of a ledge inside. `corners` is from corner to corner,
    `levels` from the floor or step to the rim.
    """

    looks: Looks
    plane: float
    axis: int
    sign: int
    corners: Span
    levels: Span
    along: Span
    up: Span
    barred: tuple[Span, ...]
    thickness: float

    def block(self, along: Span, up: Span, out: Span) -> Block:
        """The block [mm] between places along the wall, levels, and distances out from its outside."""
        ends = sorted(self.plane + self.sign * way for way in out)
        if self.axis == 0:
            return Block((ends[0], along[0], up[0]), (ends[1], along[1], up[1]))
        return Block((along[0], ends[0], up[0]), (along[1], ends[1], up[1]))

    def point(self, along: float, up: float) -> Vector:
        """A place on the outside of the wall [mm]."""
        return (self.plane, along, up) if self.axis == 0 else (along, self.plane, up)

    def has_behind(self, block: Block) -> bool:
        """Whether a block behind the wall [mm] stays between the walls beside it, above floor or step."""
        across, thick = 1 - self.axis, self.thickness - 1e-6
        low, high = self.corners[0] + thick, self.corners[1] - thick
        between = low <= block.low[across] and block.high[across] <= high
        return between and block.low[2] >= self.levels[0] + thick

    def takes(self, along: Span, up: Span) -> bool:
        """Whether a hole of that extent [mm] lies wholly where holes may be."""
        within = self.along[0] - 1e-6 <= along[0] and along[1] <= self.along[1] + 1e-6
        level = self.up[0] - 1e-6 <= up[0] and up[1] <= self.up[1] + 1e-6
        return within and level and all(up[1] <= low or high <= up[0] for low, high in self.barred)


def hole_to_bend(tray: Tray) -> float:
    """How far [mm] a hole's edge stays from the inside of the other leg: 2 t + r, common practice.

    Where nothing is folded there is a weld: as far as from a cut edge, 1.5 t, and its bead of about t.
    """
    return 2.0 * tray.thickness + tray.bend_radius if tray.bend_radius is not None else 2.5 * tray.thickness


def walls_of(parts: BoxParts) -> tuple[Wall, ...]:
    """Every wall of a box, the uppermost band first; in each the front ones first, then rear, left, right."""
    found = [wall for band in reversed(parts.tray.bands) for wall in _round_band(parts, band)]
    return tuple(found)


def _round_band(parts: BoxParts, band: Plate) -> list[Wall]:
    tray, apart = parts.tray, hole_to_bend(parts.tray)
    thick, last = tray.thickness, band.top >= tray.outside.high[2] - 1e-6
    rim = band.top - (thick + apart if tray.flange > 0.0 or not last else 1.5 * thick)
    up = (band.bottom + thick + apart, rim)
    ledges = ((bar.outside.bottom - 1.5 * thick, bar.outside.top + 1.5 * thick) for bar in tray.ledges)
    barred = tuple(span for span in ledges if span[1] > up[0] and span[0] < up[1])
    found = []
    for axis, sign, plane, corners in sides_of(band.outline):
        inset = thick + apart
        along = (corners[0] + inset, corners[1] - inset)
        looks = _LOOKS[axis, sign]
        levels = (band.bottom, band.top)
        found.append(Wall(looks, plane, axis, sign, corners, levels, along, up, barred, thick))
    return sorted(found, key=lambda wall: (wall.axis, -wall.sign, wall.corners))


_LOOKS: dict[tuple[int, int], Looks] = {(0, 1): "front", (0, -1): "rear", (1, 1): "left", (1, -1): "right"}


def sides_of(outline: Outline) -> list[tuple[int, int, float, Span]]:
    """Axis, way, place [mm] and extent of every side; counter-clockwise, the outside is to the right."""
    found = []
    for one, other in zip(outline, outline[1:] + outline[:1], strict=True):
        axis = 0 if one[0] == other[0] else 1
        across = 1 - axis
        rises = other[across] > one[across]
        sign = 1 if rises == (axis == 0) else -1
        start, end = sorted((one[across], other[across]))
        found.append((axis, sign, one[axis], (start, end)))
    return found


def spread(middle: float, width: float) -> Span:
    """So wide [mm] about a middle.

    >>> spread(5.0, 4.0)
    (3.0, 7.0)
    """
    return (middle - width / 2.0, middle + width / 2.0)
