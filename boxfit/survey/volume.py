"""The volume within a closed surface."""

import numpy as np

from boxfit.surface import Surface


def volume_of(surface: Surface) -> float:
    """The volume [mm3] within a closed surface, by the divergence theorem.

    Parts wound the other way round, such as pillars that stand in a room, are taken off.

    >>> corners = np.array([(0.0, 0.0, 0.0), (6.0, 0.0, 0.0), (0.0, 6.0, 0.0), (0.0, 0.0, 6.0)])
    >>> faces = np.array([(0, 2, 1), (0, 1, 3), (1, 2, 3), (0, 3, 2)])
    >>> round(volume_of(Surface(corners, faces)), 9)
    36.0
    """
    centre = (surface.points.min(axis=0) + surface.points.max(axis=0)) / 2
    a, b, c = ((surface.points - centre)[surface.triangles[:, k]] for k in range(3))
    return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6)
