"""What a search keeps free for what it cannot weigh itself: fittings, and link cables. [kg, mm]

They are known only once boxes are made. A reserve is what boxes made before were found to carry: of each bay
a mass at a distance from the middle of its boxes, with which it moves, and between the bays masses at places.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil

from boxfit.bay import Vector
from boxfit.car import Car, PointMass
from boxfit.layout import BayLayout
from boxfit.weight.balance import Moments, moments
from boxfit.weight.pack import Pack

STEP = 0.1
"""Masses are kept in whole steps of this [kg], rounded up: no scale in a workshop tells less."""
MORE = 1.25
"""How many times more is kept where as much as was measured did not do (our own choice)."""


@dataclass(frozen=True)
class Kept:
    """A mass [kg] that goes onto the boxes of a bay, and how far its centre is from theirs [mm]."""

    mass: float = 0.0
    away: Vector = (0.0, 0.0, 0.0)

    def beside(self, boxes: Moments) -> Moments:
        """What goes onto boxes with their modules of such sums.

        >>> Kept(2.0, (5.0, 0.0, 1.0)).beside(Moments(10.0, -1000.0, 0.0, 40.0))
        Moments(mass=2.0, x=-190.0, y=0.0, z=10.0)
        """
        x, y, z = (
            self.mass * (moment / boxes.mass + away)
            for moment, away in zip((boxes.x, boxes.y, boxes.z), self.away, strict=True)
        )
        return Moments(self.mass, x, y, z)

    def onto(self, boxes: Moments) -> Moments:
        """The boxes with it; as they are where nothing is kept."""
        if not self.mass:
            return boxes
        more = self.beside(boxes)
        return Moments(boxes.mass + more.mass, boxes.x + more.x, boxes.y + more.y, boxes.z + more.z)


NOTHING = Kept()


@dataclass(frozen=True)
class Reserve:
    """What is kept: for the boxes of each bay as the car has them, and between the bays. Empty: nothing."""

    bays: tuple[Kept, ...] = ()
    between: tuple[PointMass, ...] = ()

    @property
    def mass(self) -> float:
        """All that is kept [kg]."""
        return sum(one.mass for one in self.bays) + sum(one.mass for one in self.between)

    def of_bay(self, place: int) -> Kept:
        """What is kept for the boxes of the bay at this place."""
        return self.bays[place] if self.bays else NOTHING

    def on(self, car: Car) -> Car:
        """The car with what is kept between the bays as though it were fitted already."""
        return replace(car, fitted=(*car.fitted, *self.between)) if self.between else car

    def parts(self, share: float) -> "Reserve":
        """The same places with this share [-] of the masses."""
        return Reserve(
            tuple(replace(one, mass=_up(one.mass * share)) for one in self.bays),
            tuple(replace(one, mass=_up(one.mass * share)) for one in self.between),
        )

    def grown(self, measured: "Reserve") -> "Reserve":
        """The greater of both bay by bay and between them; a quarter more where nothing of it is greater."""
        if not self.mass:
            return measured
        bays = tuple(
            max(pair, key=lambda one: one.mass) for pair in zip(self.bays, measured.bays, strict=True)
        )
        between = max(self.between, measured.between, key=lambda ones: sum(one.mass for one in ones))
        grown = Reserve(bays, between)
        return self.parts(MORE) if grown.mass <= self.mass else grown


NO_RESERVE = Reserve()
"""Nothing is kept: the search weighs boxes and modules alone."""


def measured(bays: Sequence[BayLayout], searched: Pack, made: Pack, step: float = STEP) -> Reserve:
    """What parts as made weigh more than the search's sums for the same boxes, bay by bay, and the cables.

    Both packs have the boxes in the order of the bays, `made` has the cables after them. Moments are kept
    whole; masses are rounded up to the `step` [kg], and are one step at least, where a bay has boxes.
    """
    found: list[Kept] = []
    place = 0
    for bay in bays:
        end = place + len(bay.boxes)
        found.append(
            _more(searched.masses[place:end], made.masses[place:end], step) if bay.boxes else NOTHING
        )
        place = end
    return Reserve(
        tuple(found), tuple(PointMass(one.name, _up(one.mass, step), one.at) for one in made.boxes[place:])
    )


def _more(
    searched: Sequence[tuple[float, Vector]], made: Sequence[tuple[float, Vector]], step: float
) -> Kept:
    """What one bay's boxes weigh more as made: the mass rounded up at the middle as searched."""
    less, whole = moments(searched), moments(made)
    mass = max(_up(whole.mass - less.mass, step), step)
    middle = tuple(along / less.mass for along in (less.x, less.y, less.z))
    pulls = (whole.x, whole.y, whole.z)
    x, y, z = ((pull - at * whole.mass) / mass for pull, at in zip(pulls, middle, strict=True))
    return Kept(mass, (x, y, z))


def _up(mass: float, step: float = STEP) -> float:
    """The next whole step [kg] up.

    >>> _up(4.21), _up(0.3)
    (4.3, 0.3)
    """
    return round(ceil(round(mass / step, 6)) * step, 6)
