"""Mass of a strip from its legs, bends and holes alone: sums only, exact."""

from math import pi

from boxfit.bay import Vector
from boxfit.box.fitting import DIRECTIONS, Strip
from boxfit.box.strip_legs import Leg, hole_middle, legs_of, moved, turned_back
from boxfit.standards.materials import MATERIALS
from boxfit.weight.box_mass import CUBIC_METRE, PartMass


def strip_mass(strip: Strip) -> PartMass:
    """Mass [kg], volume [mm3] and centre [mm] in the car; bends are quarters of a ring (textbook).

    >>> angle = Strip(
    ...     "hold-down", "bar", "aluminium-5754", 2.0, 2.0, (0.0, 0.0, 0.0), "left", 100.0,
    ...     (("down", 20.0), ("front", 20.0)), "front",
    ... )
    >>> round(strip_mass(angle).volume, 1)  # hand: (16 + 16) 2 100 and a quarter ring of 2 to 4 mm
    7342.5
    """
    pieces: list[tuple[float, Vector]] = []
    legs = legs_of(strip)
    middle = (DIRECTIONS[strip.along], strip.width / 2.0)
    for leg in legs:
        reach = (leg.before + leg.length - leg.after) / 2.0
        centre = moved(leg.start, middle, (leg.way, reach), (leg.inwards, strip.thickness / 2.0))
        pieces.append((leg.straight * strip.thickness * strip.width, centre))
    pieces += [_bend(strip, leg, middle) for leg in legs[:-1]]
    pieces += [_corner(strip, legs[0], along) for along in (0.0, strip.width) if strip.rounded]
    for hole in strip.holes:
        centre = moved(hole_middle(strip, hole), (legs[hole.leg].inwards, strip.thickness / 2.0))
        pieces.append((-pi / 4.0 * hole.diameter**2 * strip.thickness, centre))
    volume = sum(piece for piece, _ in pieces)
    x, y, z = (sum(piece * centre[axis] for piece, centre in pieces) / volume for axis in range(3))
    return PartMass(strip.kind, volume * MATERIALS[strip.material].density / CUBIC_METRE, (x, y, z), volume)


def _bend(strip: Strip, leg: Leg, middle: tuple[Vector, float]) -> tuple[float, Vector]:
    """Volume [mm3] and centre [mm] of the bend at the end of a leg.

    A quarter ring's centroid lies 4 (R^3 - r^3) / (3 pi (R^2 - r^2)) from its centre along both its straight
    edges.
    """
    inner, outer = strip.radius, strip.radius + strip.thickness
    away = 4.0 * (outer**3 - inner**3) / (3.0 * pi * (outer**2 - inner**2))
    turning = moved(leg.start, middle, (leg.way, leg.length - outer), (leg.inwards, outer))
    centre = moved(turning, (leg.way, away), (turned_back(leg.inwards), away))
    return pi / 4.0 * (outer**2 - inner**2) * strip.width, centre


def _corner(strip: Strip, leg: Leg, along: float) -> tuple[float, Vector]:
    """What a rounded corner takes off [mm3], and its centre [mm].

    Of a square less a quarter disc: (1 - pi / 4) r^2, its centroid (5/6 - pi/4) / (1 - pi/4) r from both of
    the square's outer sides.
    """
    radius, share = strip.rounded, 1.0 - pi / 4.0
    far = (5.0 / 6.0 - pi / 4.0) / share * radius
    centre = moved(
        leg.start,
        (leg.way, leg.length - far),
        (DIRECTIONS[strip.along], far if along == 0.0 else along - far),
        (leg.inwards, strip.thickness / 2.0),
    )
    return -share * radius**2 * strip.thickness, centre
