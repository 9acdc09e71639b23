"""Volumes and first moments of what stands over an outline or is swept round it, in closed form.

A profile stands upright across the sides of an outline: `u` [mm] counts outwards from it, z upwards. Swept
round with mitred corners, a point of it runs round the outline grown by u. Every side gains u at a convex
corner and loses u at a reflex one, and convex corners exceed reflex ones by four, so that a profile of area A
gives V = perimeter * A + 8 * integral of u dA (Pappus's theorem, taken per straight side), whatever the
outline. A side of length L, its middle at m, its direction d and outward normal n, with corners of sign s and
e (1 convex, -1 reflex) at its start and end, adds to the first moments in plan the integral of
(L + (s + e) u) (m + u (n + d (e - s) / 2)) dA. All of it is exact.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import pi
from typing import NamedTuple

from boxfit.box_shape import area, perimeter
from boxfit.surface import Outline, Point

Span = tuple[float, float]
"""From where to where [mm]."""


class Profile(NamedTuple):
    """Integrals over a profile, and over the height of what stands on the whole outline.

    `rise` and `lift` are the integrals of dz and z dz over the heights at which the whole outline is filled;
    the others are those of 1, u, u^2, z and u z over the area of the profile.
    """

    rise: float = 0.0
    lift: float = 0.0
    area: float = 0.0
    across: float = 0.0
    across_twice: float = 0.0
    up: float = 0.0
    across_and_up: float = 0.0


NOTHING = Profile()


class Swept(NamedTuple):
    """Volume [mm3] and first moments [mm4]."""

    volume: float
    x: float
    y: float
    z: float


def total(profiles: list[Profile]) -> Profile:
    """Profiles of one outline added up."""
    return Profile(*(sum(terms) for terms in zip(NOTHING, *profiles, strict=True)))


def less(profile: Profile) -> Profile:
    """What is taken away."""
    return Profile(*(-term for term in profile))


def upside_down(profile: Profile) -> Profile:
    """The profile mirrored at the level 0.

    >>> upside_down(strip((0.0, 2.0), (1.0, 3.0))) == strip((0.0, 2.0), (-3.0, -1.0))
    True
    """
    return profile._replace(lift=-profile.lift, up=-profile.up, across_and_up=-profile.across_and_up)


def strip(across: Span, up: Span) -> Profile:
    """A rectangle; negative where `across` runs inwards.

    >>> [round(term, 3) for term in strip((0.0, 2.0), (0.0, 1.0))]
    [0.0, 0.0, 2.0, 2.0, 2.667, 1.0, 1.0]
    """
    wide, high = across[1] - across[0], up[1] - up[0]
    middle, level, whole = (across[0] + across[1]) / 2.0, (up[0] + up[1]) / 2.0, wide * high
    twice = high * (across[1] ** 3 - across[0] ** 3) / 3.0
    return Profile(0.0, 0.0, whole, whole * middle, twice, whole * level, whole * middle * level)


def prism(up: Span, outwards: float = 0.0) -> Profile:
    """All within the outline moved outwards [mm], between two levels."""
    high = up[1] - up[0]
    return strip((0.0, outwards), up)._replace(rise=high, lift=high * (up[0] + up[1]) / 2.0)


def bend(centre: Point, radii: Span, outwards: int) -> Profile:
    """A quarter ring between two radii [mm].

    `outwards` is 1 for the floor bend (outside and below its centre), -1 for the flange bend (inside and
    above it). Of a quarter disc of radius R: first moments R^3 / 3 about its straight sides, second moments
    pi R^4 / 16, product R^4 / 8 (textbook).
    """
    across, up = centre
    small, large = radii
    whole = pi / 4.0 * (large**2 - small**2)
    first = outwards * (large**3 - small**3) / 3.0
    second, product = pi / 16.0 * (large**4 - small**4), (large**4 - small**4) / 8.0
    return Profile(
        area=whole,
        across=whole * across + first,
        across_twice=whole * across**2 + 2.0 * first * across + second,
        up=whole * up - first,
        across_and_up=whole * across * up + first * (up - across) - product,
    )


@dataclass(frozen=True)
class Plan:
    """What of an outline the sums need: its area and sides, and the moments of both in x and y.

    `sides`, `sides_once` and `sides_twice` [mm2, mm, 1] go with the integrals of 1, u and u^2.
    """

    area: float
    perimeter: float
    inside: Point
    sides: Point
    sides_once: Point
    sides_twice: Point

    def swept(self, profile: Profile) -> Swept:
        """Volume and moments of a profile swept round the outline, and of what stands on the whole of it."""
        terms = (profile.rise, profile.area, profile.across, profile.across_twice)
        moments = (self.inside, self.sides, self.sides_once, self.sides_twice)
        x, y = (
            sum(term * moment[axis] for term, moment in zip(terms, moments, strict=True)) for axis in (0, 1)
        )
        volume, z = volume_and_lift(self.area, self.perimeter, profile)
        return Swept(volume, x, y, z)


def volume_and_lift(plan: float, around: float, profile: Profile) -> tuple[float, float]:
    """Volume [mm3] and its moment in z [mm4] over a plan [mm2] of that perimeter [mm]."""
    volume = profile.rise * plan + profile.area * around + 8.0 * profile.across
    return volume, profile.lift * plan + profile.up * around + 8.0 * profile.across_and_up


@lru_cache(maxsize=256)
def plan_of(outline: Outline) -> Plan:
    """The sums over an outline's sides and inside."""
    inside, sides, once, twice = ([0.0, 0.0] for _ in range(4))
    corners = len(outline)
    for number, start in enumerate(outline):
        end = outline[(number + 1) % corners]
        length, along = _run(start, end)
        before, after = _run(outline[number - 1], start)[1], _run(end, outline[(number + 2) % corners])[1]
        first, last = _turn(before, along), _turn(along, after)
        crossed = start[0] * end[1] - end[0] * start[1]
        for axis, normal in ((0, along[1]), (1, -along[0])):
            middle, moved = (start[axis] + end[axis]) / 2.0, normal + along[axis] * (last - first) / 2.0
            inside[axis] += crossed * (start[axis] + end[axis]) / 6.0
            sides[axis] += length * middle
            once[axis] += (first + last) * middle + length * moved
            twice[axis] += (first + last) * moved
    moments = ((one[0], one[1]) for one in (inside, sides, once, twice))
    return Plan(area(outline), perimeter(outline), *moments)


def _run(start: Point, end: Point) -> tuple[float, Point]:
    """Length [mm] and direction of a side square to the axes."""
    x, y = end[0] - start[0], end[1] - start[1]
    length = abs(x) + abs(y)
    return length, (x / length, y / length)


def _turn(before: Point, after: Point) -> float:
    """1 where a counter-clockwise outline turns left, which is convex; -1 where it turns right."""
    return before[0] * after[1] - before[1] * after[0]
