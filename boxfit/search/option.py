"""A box with its weight and everywhere it may stand in its bay."""

from dataclasses import dataclass
from functools import cached_property

import shapely

from boxfit.bay import Bay
from boxfit.box_details import cover_plate_lacking
from boxfit.layout import PlacedBox
from boxfit.search.bay import BaySearch
from boxfit.search.candidate import Candidate, turned_over
from boxfit.weight.balance import Moments, moments
from boxfit.weight.box_mass import PartMass, box_mass
from boxfit.weight.demands import MomentRange

MOST_BOXES = 24
"""Plan sizes and stacks kept for one count in one bay: the lightest."""


@dataclass(frozen=True, eq=False)
class Option:
    """One candidate, the polygons its low corner may be in, and its mass and moments about that corner."""

    bay: Bay
    candidate: Candidate
    places: tuple[shapely.Polygon, ...]

    @cached_property
    def load(self) -> Moments:
        """Mass [kg] of box and modules, and moments [kg mm] with the low corner at x = y = 0."""
        box = self.candidate.placed(0.0, 0.0)
        empty = empty_box(self.bay, box)
        centre = (empty.centre[0], empty.centre[1], empty.centre[2] + box.low[2])
        mass = self.candidate.stack.module.mass
        middles = ((mass, middle_of(module.low, module.high)) for module in box.modules)
        return moments([(empty.mass, centre), *middles])

    @cached_property
    def reach(self) -> MomentRange:
        """The least and greatest moment [kg mm] about the front axle this box can give."""
        low = min(place.bounds[0] for place in self.places)
        high = max(place.bounds[2] for place in self.places)
        return MomentRange(self.load.x + self.load.mass * low, self.load.x + self.load.mass * high)


def middle_of(
    low: tuple[float, float, float], high: tuple[float, float, float]
) -> tuple[float, float, float]:
    """The middle [mm] between two corners.

    >>> middle_of((0, 0, 0), (2, 4, 6))
    (1.0, 2.0, 3.0)
    """
    return ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2)


def empty_box(bay: Bay, box: PlacedBox) -> PartMass:
    """Mass [kg] of a box without modules and its centre [mm] from the box's low corner."""
    size = (box.high[0] - box.low[0], box.high[1] - box.low[1], box.high[2] - box.low[2])
    levels = tuple(tier.stands_on - box.low[2] for tier in box.tiers)
    covered = bay.box.asked and cover_plate_lacking(box.high[2], bay) == 0.0
    return box_mass(size, levels, bay.box, covered)


def options(search: BaySearch, count: int) -> tuple[Option, ...]:
    """Boxes for `count` modules in the bay, each with everywhere it may stand; mirror images included."""
    boxes = sorted(search.boxes(count), key=lambda box: sum(box.outside))[:MOST_BOXES]
    found = []
    for box in boxes:
        room = search.rooms.at(box.stack, box.bottom)
        places = polygons(room.places(box.size.width, box.size.depth))
        if places:
            found += [Option(search.bay, image, places) for image in turned_over(box)]
    return tuple(found)


def polygons(region: shapely.Geometry) -> tuple[shapely.Polygon, ...]:
    """The polygons of a region, in a fixed order."""
    parts = [
        part for part in shapely.get_parts(region) if isinstance(part, shapely.Polygon) and part.area > 0
    ]
    return tuple(sorted(parts, key=lambda part: part.bounds))
