"""What a closed surface must be like."""

import numpy as np

from boxfit.surface import Surface


def is_sealed(surface: Surface) -> bool:
    """Every edge is walked as often one way as the other, and no triangle names a point twice."""
    edges = surface.triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2)
    there, back = edges @ [len(surface.points), 1], edges @ [1, len(surface.points)]
    return bool((edges[:, 0] != edges[:, 1]).all() and np.array_equal(np.sort(there), np.sort(back)))


def is_one_skin(surface: Surface) -> bool:
    """Sealed, and every edge has just two triangles."""
    edges = surface.triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2)
    return is_sealed(surface) and len(np.unique(edges, axis=0)) == len(edges)
