"""Mass, centre and inertia of bodies, and of several bodies together. Lengths in one unit throughout.

Inertia is a full tensor about the body's own centre along the car's axes; its mixed terms are
-sum(m x y) and so on. With millimetres it comes out in kg mm2.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from boxfit.bay import Vector

Tensor = tuple[float, float, float, float, float, float]
"""xx, yy, zz, xy, xz, yz."""
NO_INERTIA: Tensor = (0.0, 0.0, 0.0, 0.0, 0.0, 0.0)


@dataclass(frozen=True)
class MassProperties:
    """Mass [kg], centre of mass [mm], and inertia [kg mm2] about that centre."""

    mass: float
    centre: Vector
    inertia: Tensor = NO_INERTIA


def cuboid(mass: float, low: Vector, high: Vector) -> MassProperties:
    """A homogeneous block: I about an axis = m (a^2 + b^2) / 12 with the two sides across it (textbook).

    >>> cuboid(12.0, (0.0, 0.0, 0.0), (2.0, 3.0, 4.0))
    MassProperties(mass=12.0, centre=(1.0, 1.5, 2.0), inertia=(25.0, 20.0, 13.0, 0.0, 0.0, 0.0))
    """
    x, y, z = (end - start for start, end in zip(low, high, strict=True))
    squares = (y * y + z * z, x * x + z * z, x * x + y * y)
    xx, yy, zz = (mass / 12.0 * square for square in squares)
    centre = ((low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0, (low[2] + high[2]) / 2.0)
    return MassProperties(mass, centre, (xx, yy, zz, 0.0, 0.0, 0.0))


def inertia_about(body: MassProperties, point: Vector) -> Tensor:
    """The body's inertia [kg mm2] about any point [mm]: the parallel-axis theorem (textbook).

    >>> inertia_about(MassProperties(2.0, (3.0, 0.0, 4.0)), (0.0, 0.0, 0.0))
    (32.0, 50.0, 18.0, 0.0, -24.0, 0.0)
    """
    x, y, z = (own - other for own, other in zip(body.centre, point, strict=True))
    away = (y * y + z * z, x * x + z * z, x * x + y * y, -x * y, -x * z, -y * z)
    xx, yy, zz, xy, xz, yz = (
        own + body.mass * term + 0.0 for own, term in zip(body.inertia, away, strict=True)
    )
    return (xx, yy, zz, xy, xz, yz)


def together(bodies: Iterable[MassProperties]) -> MassProperties:
    """Several bodies as one; raises ValueError where they weigh nothing, as nothing then has a centre."""
    held = tuple(bodies)
    mass = sum(body.mass for body in held)
    if mass <= 0.0:
        raise ValueError(f"bodies together must weigh something (got {mass:g} kg)")
    x, y, z = (sum(body.mass * body.centre[axis] for body in held) / mass for axis in range(3))
    terms = zip(*(inertia_about(body, (x, y, z)) for body in held), strict=True)
    xx, yy, zz, xy, xz, yz = (sum(term) for term in terms)
    return MassProperties(mass, (x, y, z), (xx, yy, zz, xy, xz, yz))
