"""Tubs of sheet metal as a scan gives them: grids of triangles, open at the top, with holes where asked."""

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Surface, Vector

Coordinates = NDArray[np.float64]
Wanted = Callable[[Coordinates], NDArray[np.bool_]]


def block(low: Vector, high: Vector, edge: float = 20.0) -> Surface:
    """The closed surface of a block, outward, in triangles of about this edge [mm]."""
    sizes = np.array(high) - np.array(low)
    counts = np.maximum(np.round(sizes / edge), 1).astype(int)
    points, triangles, so_far = [], [], 0
    for axis in range(3):
        one, other = (axis + 1) % 3, (axis + 2) % 3
        i, j = (grid.ravel() for grid in np.indices((counts[one] + 1, counts[other] + 1)))
        a, b = (grid.ravel() for grid in np.indices((counts[one], counts[other])))
        first = a * (counts[other] + 1) + b
        second = first + counts[other] + 1
        faces = np.concatenate(
            [np.column_stack([first, second, second + 1]), np.column_stack([first, second + 1, first + 1])]
        )
        for side in (0, 1):
            corners = np.zeros((len(i), 3), dtype=np.int64)
            corners[:, axis], corners[:, one], corners[:, other] = side * counts[axis], i, j
            points.append(corners)
            triangles.append((faces if side else faces[:, ::-1]) + so_far)
            so_far += len(corners)
    found, number = np.unique(np.concatenate(points), axis=0, return_inverse=True)
    placed = np.array(low) + found / counts * sizes
    return Surface(placed, number.ravel()[np.concatenate(triangles)])


def without(surface: Surface, unwanted: Wanted) -> Surface:
    """The surface less the triangles whose middles are unwanted, and less the points no longer used."""
    left = surface.triangles[~unwanted(surface.corners.mean(axis=1))]
    used, number = np.unique(left, return_inverse=True)
    return Surface(surface.points[used], number.reshape(-1, 3))


def noisy(surface: Surface, noise: float) -> Surface:
    """Every point moved by up to `noise` [mm] along each axis, always the same."""
    moves = np.random.default_rng(7).uniform(-noise, noise, surface.points.shape)
    return Surface(surface.points + moves, surface.triangles)


def tub(low: Vector, high: Vector, edge: float = 10.0) -> Surface:
    """A block open at the top."""
    top = high[2] - 1e-6
    return without(block(low, high, edge), lambda middles: middles[:, 2] > top)


def turned(surface: Surface, axes: Sequence[int]) -> Surface:
    """The surface with its axes in another order, such as (2, 0, 1): the way stays right-handed."""
    return Surface(surface.points[:, list(axes)], surface.triangles)
