"""A part of the sheet that shows the car at one scale."""

from collections.abc import Sequence
from dataclasses import dataclass

from boxfit.bay import Point, Vector
from boxfit.report.area import Area, area_of
from boxfit.report.look import SCALES
from boxfit.report.projection import View


@dataclass(frozen=True)
class Panel:
    """A view at 1:`scale`; `origin` [mm of paper] is where the car's own origin falls."""

    view: View
    scale: float
    origin: Point

    def put(self, flat: Point) -> Point:
        """Where a point of the view falls on paper [mm]."""
        return (self.origin[0] + flat[0] / self.scale, self.origin[1] + flat[1] / self.scale)

    def at(self, point: Vector) -> Point:
        """Where a point of the car falls on paper [mm]."""
        return self.put(self.view.flat(point))

    def outline(self, flats: Sequence[Point]) -> tuple[Point, ...]:
        """Where points of the view fall on paper [mm]."""
        return tuple(self.put(flat) for flat in flats)

    def block(self, low: Vector, high: Vector) -> Area:
        """The rectangle on paper that a block covers."""
        return area_of((self.at(low), self.at(high)))


def fitted_panel(view: View, flats: Sequence[Point], into: Area) -> Panel:
    """The largest usual scale at which all the points of the view fall into the place, in its middle.

    Where even the smallest usual scale is too large, the scale is the one that just fits.
    """
    size = area_of(flats)
    need = max(size.width / into.width, size.height / into.height)
    scale = next((scale for scale in SCALES if scale >= need), need)
    (x, y), (across, upwards) = into.centre, size.centre
    return Panel(view, scale, (x - across / scale, y - upwards / scale))
