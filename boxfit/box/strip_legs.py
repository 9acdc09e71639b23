"""Where the legs and holes of a folded strip lie, and what each leg fills of the car."""

from dataclasses import dataclass

from boxfit.bay import Block, Vector
from boxfit.box.fitting import DIRECTIONS, Strip, StripHole


@dataclass(frozen=True)
class Leg:
    """One leg: `start` [mm] is where its outside begins; `way` and `inwards`, to its inside, are of length 1.

    `length` [mm] is outside, from corner to corner; `before` and `after` [mm] are what the bends take of it.
    """

    start: Vector
    way: Vector
    inwards: Vector
    length: float
    before: float
    after: float

    @property
    def straight(self) -> float:
        """What of it stays flat [mm]."""
        return self.length - self.before - self.after


def moved(point: Vector, *ways: tuple[Vector, float]) -> Vector:
    """A point moved so far [mm] along each of several ways.

    >>> moved((1.0, 2.0, 3.0), ((1.0, 0.0, 0.0), 5.0), ((0.0, 0.0, -1.0), 2.0))
    (6.0, 2.0, 1.0)
    """
    x, y, z = point
    for (a, b, c), far in ways:
        x, y, z = x + a * far, y + b * far, z + c * far
    return (x, y, z)


def turned_back(way: Vector) -> Vector:
    """The opposite way."""
    x, y, z = way
    return (0.0 - x, 0.0 - y, 0.0 - z)


def legs_of(strip: Strip) -> tuple[Leg, ...]:
    """The legs one after the other. Raises ValueError for legs that no strip could have."""
    found: list[Leg] = []
    point, inwards, outer = strip.start, DIRECTIONS[strip.inwards], strip.radius + strip.thickness
    last = len(strip.legs) - 1
    for place, (looks, length) in enumerate(strip.legs):
        way = DIRECTIONS[looks]
        if place:
            if way != inwards:
                raise ValueError(f"{strip.name}: leg {place} must go where the leg before it has its inside")
            inwards = turned_back(found[-1].way)
        leg = Leg(point, way, inwards, length, outer if place else 0.0, outer if place < last else 0.0)
        if leg.straight < 0.0:
            raise ValueError(f"{strip.name}: leg {place} is shorter than its bends")
        found.append(leg)
        point = moved(point, (way, length))
    if strip.rounded and (last or strip.rounded > min(strip.width / 2.0, strip.legs[0][1])):
        raise ValueError(f"{strip.name}: only the end of a plate can be rounded, by half its width at most")
    return tuple(found)


def hole_middle(strip: Strip, hole: StripHole) -> Vector:
    """The middle of a hole [mm] on the outside of its leg."""
    leg = legs_of(strip)[hole.leg]
    return moved(leg.start, (DIRECTIONS[strip.along], hole.along), (leg.way, hole.across))


def strip_blocks(strip: Strip) -> tuple[Block, ...]:
    """What each leg fills [mm], its corners square: a little more than the strip with its round bends.

    >>> legs = (("front", 50.0),)
    >>> plate = Strip("hold-down", "bar", "steel-s235", 2.0, 2.0, (0, 0, 0), "left", 9.0, legs, "up")
    >>> strip_blocks(plate)
    (Block(low=(0.0, 0.0, 0.0), high=(50.0, 9.0, 2.0)),)
    """
    along = DIRECTIONS[strip.along]
    found: list[Block] = []
    for leg in legs_of(strip):
        ends = (leg.start, moved(leg.start, (leg.way, leg.length)))
        far = [moved(end, (along, strip.width), (leg.inwards, strip.thickness)) for end in ends]
        corners = list(zip(*ends, *far, strict=True))
        (x, y, z), (a, b, c) = map(min, corners), map(max, corners)
        found.append(Block((float(x), float(y), float(z)), (float(a), float(b), float(c))))
    return tuple(found)
