"""Solids that stay in a bay as closed surfaces."""

from math import acos, ceil, cos, pi

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Block, Cylinder, Solid
from boxfit.surface import Surface

OUTSIDE = 0.05
"""How far [mm] the edges of a bar's polygon may stand outside the round."""


def as_surface(solid: Solid) -> Surface:
    """The solid's closed surface, outside counter-clockwise.

    A round bar becomes a prism whose sides touch it from outside: nowhere smaller than the bar, at most
    0.05 mm larger, so nothing need be added and `off` is 0. A surface stays as it is.

    >>> as_surface(Block((0.0, 0.0, 0.0), (4.0, 3.0, 2.0))).high
    (4.0, 3.0, 2.0)
    """
    if isinstance(solid, Block):
        (x, y, z), (far_x, far_y, far_z) = solid.low, solid.high
        ring = np.array([[x, y, z], [far_x, y, z], [far_x, far_y, z], [x, far_y, z]])
        return _prism(ring, np.array([0.0, 0.0, far_z - z]))
    if isinstance(solid, Cylinder):
        return _bar(solid)
    return solid


def _bar(bar: Cylinder) -> Surface:
    """A bar as a prism of a number of sides divisible by four, touching it in the middle of each side."""
    start = np.array(bar.start)
    along = np.array(bar.end) - start
    radius = bar.diameter / 2.0
    sides = 4 * max(2, ceil(pi / acos(radius / (radius + OUTSIDE)) / 4.0))
    axis = along / np.linalg.norm(along)
    across = np.eye(3)[int(np.argmin(np.abs(axis)))]
    one = across - (across @ axis) * axis
    one /= np.linalg.norm(one)
    angles = (np.arange(sides) + 0.5) * (2.0 * pi / sides)
    round_ = np.outer(np.cos(angles), one) + np.outer(np.sin(angles), np.cross(axis, one))
    return _prism(start + round_ * (radius / cos(pi / sides)), along)


def _prism(ring: NDArray[np.float64], along: NDArray[np.float64]) -> Surface:
    """A convex ring, counter-clockwise seen against `along`, pulled along it."""
    count = len(ring)
    low, after = np.arange(count), np.roll(np.arange(count), -1)
    fan = np.stack([np.zeros(count - 2, dtype=np.int64), low[1:-1], low[2:]], axis=1)
    triangles = [
        fan[:, ::-1],
        fan + count,
        np.stack([low, after, after + count], axis=1),
        np.stack([low, after + count, low + count], axis=1),
    ]
    return Surface(np.concatenate([ring, ring + along]), np.concatenate(triangles).astype(np.int64))
