"""The boxes of a bay with their weight and everywhere they may stand."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import shapely

from boxfit.bay import Bay, Vector
from boxfit.layout import PlacedBox
from boxfit.lid_details import cover_plate_lacking, expects_returns
from boxfit.module import Module
from boxfit.search.arrangement import Arrangement
from boxfit.search.offers import Offers
from boxfit.weight.balance import Moments, moments
from boxfit.weight.box_mass import PartMass, box_mass
from boxfit.weight.demands import MomentRange
from boxfit.weight.reserve import NOTHING, Kept

MOST_BOXES = 24
"""Plan sizes and stacks kept for one count in one bay: the lightest."""


@dataclass(frozen=True, eq=False)
class Option:
    """One arrangement, the polygons its low corner may be in, its mass and moments about that corner.

    `kept` is what is reckoned to go onto its boxes once they are made.
    """

    bay: Bay
    arrangement: Arrangement
    places: tuple[shapely.Polygon, ...]
    module: Module
    kept: Kept = NOTHING

    @property
    def count(self) -> int:
        """Modules in it."""
        return self.arrangement.count

    @cached_property
    def load(self) -> Moments:
        """Mass [kg] of boxes, modules and what is kept; moments [kg mm] with the low corner at x = y = 0."""
        boxes = self.arrangement.placed(0.0, 0.0)
        return self.kept.onto(moments([load for box in boxes for load in self._loads(box)]))

    def _loads(self, box: PlacedBox) -> Iterator[tuple[float, Vector]]:
        empty = empty_box(self.bay, box)
        x, y, z = (low + part for low, part in zip(box.low, empty.centre, strict=True))
        yield empty.mass, (x, y, z)
        yield from ((self.module.mass, middle_of(one.low, one.high)) for one in box.modules)

    @cached_property
    def reach(self) -> MomentRange:
        """The least and greatest moment [kg mm] about the front axle these boxes can give."""
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
    levels = tuple(tier.stands_on - box.low[2] for tier in box.tiers)
    covered = bay.box.asked and cover_plate_lacking(box.high[2], bay) == 0.0
    height, returned = box.high[2] - box.low[2], expects_returns(bay.box)
    return box_mass(box.outlines, height, levels, bay.box, covered, returned)


def options(offers: Offers, count: int, corners: int, kept: Kept = NOTHING) -> tuple[Option, ...]:
    """Arrangements for `count` modules with so many corners, with everywhere each may stand; mirrored too."""
    search = offers.search
    found = []
    for one in sorted(offers.arrangements(count, corners), key=_size)[:MOST_BOXES]:
        for image in one.turned_over():
            if places := polygons(image.places(search.rooms)):
                found.append(Option(search.bay, image, places, search.module, kept))
    return tuple(found)


def _size(arrangement: Arrangement) -> float:
    """Length, width and height [mm] of all boxes added up."""
    return sum(box.size.width + box.size.depth + box.stack.height for box, _ in arrangement.boxes)


def polygons(region: shapely.Geometry) -> tuple[shapely.Polygon, ...]:
    """The polygons of a region, in a fixed order."""
    parts = [
        part for part in shapely.get_parts(region) if isinstance(part, shapely.Polygon) and part.area > 0
    ]
    return tuple(sorted(parts, key=lambda part: part.bounds))
