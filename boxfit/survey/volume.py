"""The volume within a closed surface."""

from boxfit.surface import Surface
from boxfit.survey.areas import volumes_of


def volume_of(surface: Surface) -> float:
    """The volume [mm3] within a closed surface, by the divergence theorem.

    Parts wound the other way round, such as pillars that stand in a room, are taken off.

    >>> import numpy as np
    >>> corners = np.array([(0.0, 0.0, 0.0), (6.0, 0.0, 0.0), (0.0, 6.0, 0.0), (0.0, 0.0, 6.0)])
    >>> faces = np.array([(0, 2, 1), (0, 1, 3), (1, 2, 3), (0, 3, 2)])
    >>> round(volume_of(Surface(corners, faces)), 9)
    36.0
    """
    return float(volumes_of(surface).sum())
