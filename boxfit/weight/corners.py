"""Loads under the four wheels, state by state: stripped, as converted, with the target's people, with all.

What is added loads the axles by the lever rule and each axle's two wheels by that axle's own track, as if the
car did not twist: what a spring shop starts from, not the last word on shims (common practice, no source).
"""

from collections.abc import Iterable
from dataclasses import dataclass

from boxfit.bay import Vector
from boxfit.car import Car, CornerWeights, Limits
from boxfit.weight.balance import front_part, moments, stripped_centre, stripped_mass

Mass = tuple[float, Vector]
"""A mass [kg] and its centre [mm]."""


@dataclass(frozen=True)
class Corners:
    """Loads [kg] under the four wheels."""

    front_left: float
    front_right: float
    rear_left: float
    rear_right: float

    @property
    def each(self) -> tuple[float, float, float, float]:
        """Front left, front right, rear left, rear right [kg]."""
        return (self.front_left, self.front_right, self.rear_left, self.rear_right)

    @property
    def front(self) -> float:
        """Front axle [kg]."""
        return self.front_left + self.front_right

    @property
    def rear(self) -> float:
        """Rear axle [kg]."""
        return self.rear_left + self.rear_right

    @property
    def gross(self) -> float:
        """All four [kg]."""
        return self.front + self.rear

    @property
    def cross_share(self) -> float:
        """Part [-] of the whole on front right and rear left together: 0.5 where the car stands even.

        >>> Corners(100.0, 100.0, 100.0, 100.0).cross_share
        0.5
        """
        return (self.front_right + self.rear_left) / self.gross

    def less(self, other: "Corners") -> "Corners":
        """The difference wheel by wheel [kg]."""
        return Corners(*(one - two for one, two in zip(self.each, other.each, strict=True)))


@dataclass(frozen=True)
class State:
    """The car in one state: loads [kg], centre of mass [mm] (its height None where not known)."""

    name: str
    corners: Corners
    centre: tuple[float, float, float | None]

    @property
    def front_share(self) -> float:
        """Part [-] on the front axle."""
        return self.corners.front / self.corners.gross

    @property
    def left_share(self) -> float:
        """Part [-] on the left wheels."""
        return (self.corners.front_left + self.corners.rear_left) / self.corners.gross


def corners_of(car: Car, masses: Iterable[Mass]) -> Corners:
    """What masses (kg, at [mm]) put on the four wheels [kg]; beyond an axle the other is unloaded.

    >>> car = Car("c", "c", 2000.0, 1200.0, 1000.0, ())
    >>> corners_of(car, [(100.0, (-500.0, 0.0, 300.0))]).each
    (37.5, 37.5, 12.5, 12.5)
    >>> corners_of(car, [(100.0, (0.0, 300.0, 0.0))]).each
    (75.0, 25.0, 0.0, 0.0)
    """
    loads = [0.0, 0.0, 0.0, 0.0]
    for mass, (x, y, _) in masses:
        front = mass * front_part(car, x)
        for wheel, (load, track) in enumerate(((front, car.track_front), (mass - front, car.track_rear))):
            loads[2 * wheel] += load * (0.5 + y / track)
            loads[2 * wheel + 1] += load * (0.5 - y / track)
    return Corners(*loads)


def states(car: Car, weighed: CornerWeights, pack: tuple[Mass, ...]) -> tuple[State, ...]:
    """The car stripped, as converted, with what the target has aboard, with everything carried.

    The last two are left out where they add nothing to the one before.
    """
    aboard = car.target.aboard if car.target else ()
    fitted = [(one.mass, one.at) for one in car.fitted]
    some = [(one.mass, one.at) for one in car.carried if one.name in aboard]
    rest = [(one.mass, one.at) for one in car.carried if one.name not in aboard]
    found = [state_of(car, weighed, "stripped", ())]
    found.append(state_of(car, weighed, "as converted", (*fitted, *pack)))
    if some:
        found.append(state_of(car, weighed, f"with {' and '.join(aboard)}", (*fitted, *pack, *some)))
    if rest:
        found.append(state_of(car, weighed, "with everything", (*fitted, *pack, *some, *rest)))
    return tuple(found)


def state_of(car: Car, weighed: CornerWeights, name: str, added: tuple[Mass, ...]) -> State:
    """The stripped car with masses added (kg, at [mm])."""
    more = corners_of(car, added)
    stripped = (weighed.front_left, weighed.front_right, weighed.rear_left, weighed.rear_right)
    loads = Corners(*(one + two for one, two in zip(stripped, more.each, strict=True)))
    x, y = stripped_centre(car, weighed)
    whole = moments([(stripped_mass(weighed), (x, y, weighed.height_of_mass or 0.0)), *added])
    height = None if weighed.height_of_mass is None else whole.z / whole.mass
    return State(name, loads, (whole.x / whole.mass, whole.y / whole.mass, height))


def judged(car: Car, found: tuple[State, ...]) -> State:
    """The state in which the target is judged: the one with its people, else as converted."""
    aboard = car.target.aboard if car.target else ()
    return found[2] if any(one.name in aboard for one in car.carried) else found[1]


@dataclass(frozen=True)
class Margin:
    """A load [kg] against a limit of the maker's plate [kg]; `left` is below 0 where it is over."""

    what: str
    load: float
    limit: float

    @property
    def left(self) -> float:
        """What is left [kg]."""
        return self.limit - self.load


def margins(state: State, limits: Limits) -> tuple[Margin, ...]:
    """Each limit that the plate tells, against a state."""
    loads = state.corners
    told = (
        ("front axle", loads.front, limits.front_axle),
        ("rear axle", loads.rear, limits.rear_axle),
        ("gross", loads.gross, limits.gross),
    )
    return tuple(Margin(what, load, limit) for what, load, limit in told if limit is not None)
