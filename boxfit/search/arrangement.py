"""The boxes of one bay as they stand to one another, without a place in plan."""

from dataclasses import dataclass

import shapely

from boxfit.bay import Point
from boxfit.layout import PlacedBox
from boxfit.search.floors import Rooms
from boxfit.search.form import Form


@dataclass(frozen=True)
class Arrangement:
    """Boxes, each with the offset [mm] of its low corner from the arrangement's."""

    boxes: tuple[tuple[Form, Point], ...]

    @classmethod
    def of(cls, box: Form) -> "Arrangement":
        """One box alone."""
        return cls(((box, (0.0, 0.0)),))

    @property
    def count(self) -> int:
        """Modules in all boxes."""
        return sum(box.count for box, _ in self.boxes)

    @property
    def corners(self) -> int:
        """Corners in plan of all boxes."""
        return sum(box.corners for box, _ in self.boxes)

    def placed(self, x: float, y: float) -> tuple[PlacedBox, ...]:
        """The boxes with the arrangement's low corner at x, y [mm]."""
        return tuple(box.placed(x + along, y + across) for box, (along, across) in self.boxes)

    def places(self, rooms: Rooms) -> shapely.Geometry:
        """Where the arrangement's low corner [mm] may be, each box free where it then stands."""
        free = [
            shapely.affinity.translate(box.places(rooms), -along, -across)
            for box, (along, across) in self.boxes
        ]
        return free[0] if len(free) == 1 else shapely.intersection_all(free)

    def without_one(self) -> "Arrangement | None":
        """The same boxes where they stand with one module fewer, of the emptiest that can spare it."""
        for place in sorted(range(len(self.boxes)), key=lambda place: self.boxes[place][0].count):
            form, offset = self.boxes[place]
            before, after = self.boxes[:place], self.boxes[place + 1 :]
            if form.count == 1 and before + after:
                return Arrangement(before + after)._from_its_first()
            fewer = form.without_one()
            if fewer is not None:
                return Arrangement((*before, (fewer, offset), *after))
        return None

    def _from_its_first(self) -> "Arrangement":
        """The same with offsets counted from the first box."""
        x, y = self.boxes[0][1]
        return Arrangement(tuple((box, (along - x, across - y)) for box, (along, across) in self.boxes))

    def turned_over(self) -> "tuple[Arrangement, ...]":
        """The same with one box alone turned over; several boxes stay as they are."""
        if len(self.boxes) > 1:
            return (self,)
        return tuple(Arrangement.of(box) for box in self.boxes[0][0].turned_over())
