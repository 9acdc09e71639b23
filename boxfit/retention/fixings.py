"""How the load on a rigid box is shared among its fixings. [N, mm]

The box is taken as rigid and every fixing as equally stiff along its axis and across it, so that forces
follow from their balance and the least movement: for fixings in one plane this is the rivet-group formula of
the handbooks (load over number, and moment times distance over the sum of squared distances). A fixing is
taken to push as well as pull; what presses on the body beside it is left out, which tells the pull high, on
the safe side.
"""

from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING

from boxfit.bay import Vector

if TYPE_CHECKING:
    import numpy
    from numpy.typing import NDArray

FIRM = 1e-9
"""Below this share of its stiffest way a way to move counts as free."""


@dataclass(frozen=True)
class Fixing:
    """A bolted place: where [mm], and its axis as a unit vector from the body into the box."""

    name: str
    at: Vector
    axis: Vector


@dataclass(frozen=True)
class Held:
    """What one fixing takes: `pull` [N] along its axis, above 0 where the box is torn off, `across` [N].

    `force` [N] is the same as the box puts it on the fixing, along x, y and z.
    """

    fixing: Fixing
    pull: float
    across: float
    force: Vector


def shared(load: Vector, at: Vector, fixings: tuple[Fixing, ...]) -> tuple[Held, ...] | None:
    """Each fixing's part of a load [N] that acts at a place [mm]; None where they leave the box free to move.

    >>> places = [(x, y, 0.0) for x in (0.0, 100.0) for y in (0.0, 50.0)]
    >>> four = tuple(Fixing("foot", place, (0.0, 0.0, 1.0)) for place in places)
    >>> held = shared((1000.0, 0.0, 0.0), (50.0, 25.0, 40.0), four)
    >>> [(round(one.pull), round(one.across)) for one in held]
    [(200, 250), (200, 250), (-200, 250), (-200, 250)]
    """
    import numpy

    if not fixings:
        return None
    lever = numpy.array([one.at for one in fixings], dtype=float)
    middle = lever.mean(axis=0)
    lever -= middle
    reach = max(float(numpy.abs(lever).max()), 1.0)
    # unknown: the box's move and its turn times its reach, so that both have the size of a length
    ways = [numpy.hstack([numpy.eye(3), -_cross(arm / reach)]) for arm in lever]
    stiffness = sum(way.T @ way for way in ways)
    turning = numpy.cross(numpy.array(at) - middle, numpy.array(load)) / reach
    values, vectors = numpy.linalg.eigh(stiffness)
    asked = vectors.T @ numpy.concatenate([numpy.array(load), turning])
    loose = values < FIRM * values[-1]
    if numpy.any(numpy.abs(asked[loose]) > FIRM * max(1.0, float(numpy.abs(asked).max()))):
        return None
    move = vectors @ numpy.where(loose, 0.0, asked / numpy.where(loose, 1.0, values))
    return tuple(_held(fixing, way @ move) for fixing, way in zip(fixings, ways, strict=True))


def _cross(arm: "NDArray[numpy.float64]") -> "NDArray[numpy.float64]":
    """The matrix that crosses an arm with what it multiplies."""
    import numpy

    x, y, z = arm
    return numpy.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])


def _held(fixing: Fixing, force: "NDArray[numpy.float64]") -> Held:
    """The force that the box puts on a fixing, along and across its axis."""
    along = float(sum(one * two for one, two in zip(force, fixing.axis, strict=True)))
    across = (float(one) - along * two for one, two in zip(force, fixing.axis, strict=True))
    x, y, z = (float(part) for part in force)
    return Held(fixing, along, hypot(*across), (x, y, z))
