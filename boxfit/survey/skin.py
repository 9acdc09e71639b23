"""The outer skin of overlapping solids: what a sweep covers, without the walls of its steps inside it."""

from collections.abc import Sequence

import numpy as np

from boxfit.surface import Surface
from boxfit.survey.hulls import together

MORE = 1e-3
"""Added to `off` [mm]: corners within this of each other may become one."""


def skin(parts: Sequence[Surface], off: float) -> Surface:
    """The surface of all the solids together [mm]; as they are where one of them is not closed."""
    from manifold3d import Error, Manifold, Mesh64, OpType

    solids = [
        Manifold(Mesh64(np.ascontiguousarray(part.points), part.triangles.astype(np.uint64)))
        for part in parts
    ]
    if len(solids) < 2 or any(solid.status() != Error.NoError for solid in solids):
        return together(parts, off)
    whole = Manifold.batch_boolean(solids, OpType.Add)
    if whole.status() != Error.NoError or whole.is_empty():
        return together(parts, off)
    mesh = whole.simplify(MORE).to_mesh64()
    points = np.asarray(mesh.vert_properties, dtype=np.float64)[:, :3]
    return Surface(points, np.asarray(mesh.tri_verts, dtype=np.int64), off + MORE)
