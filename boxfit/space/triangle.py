"""The shortest way in space from a block to triangles, exact, for many of them at a time.

Blocks may be flat. The shortest way leads from an edge of the triangle, from a corner of the block to the
triangle's inside, or nowhere where an edge of the block goes through it.
"""

from itertools import product

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Block, Vector

Numbers = NDArray[np.float64]
Flags = NDArray[np.bool_]

HALVINGS = 52
"""An edge is halved this often in search of its nearest point: as exact as the numbers are."""


def triangle_gaps(block: Block, corners: Numbers) -> tuple[Numbers, Numbers]:
    """Both ends [mm] of the shortest way to every triangle: on the block and on it, shapes (n, 3).

    >>> corners = np.array([[[9.0, -50.0, -50.0], [9.0, 50.0, -50.0], [9.0, 0.0, 50.0]]])
    >>> at, to = triangle_gaps(Block((0.0, 0.0, 0.0), (5.0, 2.0, 2.0)), corners)
    >>> np.linalg.norm(at - to, axis=1)
    array([4.])
    """
    best_at, best_to = edge_gaps(block, corners[:, 0], corners[:, 1])
    tries = [edge_gaps(block, corners[:, k], corners[:, (k + 1) % 3]) for k in (1, 2)]
    tries += [_from_point(np.array(point), corners) for point in sorted(_points(block))]
    tries += [_through(*ends, corners) for ends in _edges(block)]
    least = squares(best_at - best_to)
    for at, to in tries:
        found = squares(at - to)
        nearer = found < least
        best_at[nearer], best_to[nearer], least[nearer] = at[nearer], to[nearer], found[nearer]
    return best_at, best_to


def edge_gaps(block: Block, starts: Numbers, ends: Numbers) -> tuple[Numbers, Numbers]:
    """Both ends [mm] of the shortest way to every straight edge: on the block and on the edge.

    The square of the distance is convex along an edge, so the place where it stops falling is halved down to.
    """
    low, high = np.array(block.low), np.array(block.high)
    along = ends - starts
    near, far = np.zeros(len(starts)), np.ones(len(starts))
    for _ in range(HALVINGS):
        middle = (near + far) / 2
        points = starts + along * middle[:, None]
        rises = np.einsum("ij,ij->i", points - np.clip(points, low, high), along) > 0
        far, near = np.where(rises, middle, far), np.where(rises, near, middle)
    share = np.where(near > 1.0 - 1e-12, 1.0, np.where(far < 1e-12, 0.0, (near + far) / 2))
    points = starts + along * share[:, None]
    return np.clip(points, low, high), points


def squares(ways: Numbers) -> Numbers:
    """The squares of the lengths [mm2] of ways, shape (n,)."""
    found: Numbers = np.einsum("ij,ij->i", ways, ways)
    return found


def _from_point(point: Numbers, corners: Numbers) -> tuple[Numbers, Numbers]:
    """The ways from one point square onto the inside of every triangle; endless where there is none."""
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    areas = squares(normals)
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        share = np.einsum("ij,ij->i", corners[:, 0] - point, normals) / areas
        feet = point + normals * share[:, None]
    return np.broadcast_to(point, feet.shape), np.where(
        _within(feet, corners, normals)[:, None], feet, np.inf
    )


def _through(start: Numbers, end: Numbers, corners: Numbers) -> tuple[Numbers, Numbers]:
    """The points at which a straight edge goes through the triangles; endless ways where it does not."""
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        share = np.einsum("ij,ij->i", corners[:, 0] - start, normals) / (normals @ (end - start))
        feet = start + (end - start) * share[:, None]
    met = (share >= 0.0) & (share <= 1.0) & _within(feet, corners, normals)
    return np.where(met[:, None], feet, 0.0), np.where(met[:, None], feet, np.inf)


def _within(points: Numbers, corners: Numbers, normals: Numbers) -> Flags:
    """True where a point of its plane lies in a triangle; false for a triangle without area."""
    found: Flags = squares(normals) > 0.0
    for k in range(3):
        along = corners[:, (k + 1) % 3] - corners[:, k]
        with np.errstate(invalid="ignore", over="ignore"):
            turn = np.einsum("ij,ij->i", np.cross(along, points - corners[:, k]), normals)
        found = found & (turn >= 0.0)
    return found


def _points(block: Block) -> set[Vector]:
    """The corners [mm] of a block; a flat one has four."""
    (x, y, z), (a, b, c) = block.low, block.high
    return set(product((x, a), (y, b), (z, c)))


def _edges(block: Block) -> list[tuple[Numbers, Numbers]]:
    """The edges of a block, each once."""
    points = sorted(_points(block))
    pairs = [(p, q) for k, p in enumerate(points) for q in points[k + 1 :]]
    return [
        (np.array(p), np.array(q))
        for p, q in pairs
        if sum(one != other for one, other in zip(p, q, strict=True)) == 1
    ]
