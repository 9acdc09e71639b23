"""Parts of a surface that hang together, and loose bits a scan leaves in the air."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Surface
from boxfit.survey.areas import areas_of, span_of
from boxfit.survey.merge import without_unused

Numbers = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Parts:
    """For each triangle the number of its part, and the largest extent [mm] of each part."""

    of: Numbers
    sizes: NDArray[np.float64]

    @property
    def largest(self) -> int:
        """The part with the largest extent."""
        return int(np.argmax(self.sizes))


def parts_of(surface: Surface) -> Parts:
    """The parts that share no point with another."""
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    a, b, c = surface.triangles.T
    ends = (np.concatenate([a, b]), np.concatenate([b, c]))
    graph = coo_array((np.ones(2 * len(a), dtype=np.int8), ends), shape=(len(surface.points),) * 2)
    count, label = connected_components(graph.tocsr(), directed=False)
    if count == 1:
        low, high = span_of(surface.points)
        spans = (high - low)[None]
    else:
        order = np.argsort(label, kind="stable")
        first = np.searchsorted(label[order], np.arange(count))
        points = surface.points[order]
        spans = np.maximum.reduceat(points, first) - np.minimum.reduceat(points, first)
    return Parts(label[a].astype(np.int64), spans.max(axis=1))


def without_strays(surface: Surface, strays: float) -> tuple[Surface, NDArray[np.float64], float]:
    """The surface without parts of up to `strays` [mm], their sizes [mm] and their share of its whole area.

    The largest part always stays.
    """
    parts = parts_of(surface)
    stray = parts.sizes <= strays
    stray[parts.largest] = False
    if not stray.any():
        return surface, np.zeros(0), 0.0
    out = stray[parts.of]
    areas = areas_of(surface)
    kept = without_unused(surface.points, surface.triangles[~out])
    return kept, parts.sizes[stray], float(areas[out].sum() / max(float(areas.sum()), 1e-12))
