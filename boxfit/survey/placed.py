"""A surface from its own axes into the car's (ISO 8855: x forward, y left, z up)."""

from math import cos, radians, sin

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Surface, Vector

MILLIMETRES = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4}
"""Units a survey may be in; the inch as agreed in 1959, 25.4 mm exactly."""
DUST = 1e-12
"""Entries of a turn nearer than this to 0, 1 or -1 are meant to be that."""


def placed(surface: Surface, unit: str, turn: Vector, move: Vector) -> Surface:
    """The surface in mm, turned and then moved.

    `turn` [degrees] is about x, then y, then z, each the car's own fixed axis through the origin, positive
    as a right-hand screw along the axis: about x from left to up, about y from up to forward, about z from
    forward to left. `move` [mm] comes last. Quarter turns are exact. `off` grows with the unit.
    Raises KeyError for a unit that is not one of mm, cm, m, in.

    >>> one = Surface(np.array([[1.0, 2.0, 3.0]]), np.zeros((0, 3), dtype=np.int64))
    >>> placed(one, "cm", (0.0, 0.0, 90.0), (5.0, 0.0, 0.0)).low
    (-15.0, 10.0, 30.0)
    """
    scale = MILLIMETRES[unit]
    points = (surface.points * scale) @ turning(turn).T + np.array(move)
    return Surface(points, surface.triangles, surface.off * scale)


def turning(turn: Vector) -> NDArray[np.float64]:
    """The matrix that turns a column [degrees] about x, then y, then z, all fixed."""
    found = np.eye(3)
    for axis, degrees in enumerate(turn):
        one, two = (axis + 1) % 3, (axis + 2) % 3
        step = np.eye(3)
        step[one, one] = step[two, two] = _clean(cos(radians(degrees)))
        step[two, one] = _clean(sin(radians(degrees)))
        step[one, two] = -step[two, one]
        found = step @ found
    return found + 0.0


def _clean(value: float) -> float:
    """The value without the dust that turning by quarters leaves."""
    near = float(round(value))
    return near if abs(value - near) < DUST else value
