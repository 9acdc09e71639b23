"""What a scan shows of itself: its parts, its gaps, which side is up."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Surface
from boxfit.survey.areas import areas_of, span_of
from boxfit.survey.edges import edges_of
from boxfit.survey.fault import SurveyError
from boxfit.survey.holes import Hole, holes_in
from boxfit.survey.islands import parts_of
from boxfit.survey.merge import merged, single
from boxfit.survey.winding import alike

_SPECK = 0.025
"""Share of the largest part's extent below which a part is a speck."""
_WIDE_OPEN = 0.3
"""Share of the block's side that the largest gap must span to be taken for the opening."""
_SURE = (0.5, 0.9)
"""Shares of the block's side and cosines above which the opening leaves no doubt."""
_FLAT_ACROSS = 0.95


@dataclass(frozen=True, eq=False)
class LookedAt:
    """Numbers as in the file. `up` is the axis (0, 1, 2) and the sign of the side that looks up.

    `why` says what makes that side the upper one, `sure` whether there is little doubt.
    """

    low: NDArray[np.float64]
    high: NDArray[np.float64]
    triangles: int
    parts: int
    specks: int
    gaps: tuple[float, ...]
    up: tuple[int, int]
    why: str
    sure: bool


def looked_at(surface: Surface) -> LookedAt:
    """What the surface shows. Raises SurveyError where no triangle has an area."""
    whole = merged(surface)
    whole = Surface(whole.points, single(whole.triangles))
    if not len(whole.triangles):
        raise SurveyError("file", "has only triangles of no area", "save it again from the scanning program")
    edges = edges_of(whole.triangles)
    gaps = sorted(holes_in(whole, edges, alike(edges).turn), key=lambda gap: -gap.size)
    sizes = parts_of(whole).sizes
    specks = int(np.count_nonzero(sizes < _SPECK * sizes.max()))
    low, high = span_of(whole.points)
    up, why, sure = _up(whole, gaps, high - low)
    found = tuple(gap.size for gap in gaps)
    return LookedAt(low, high, len(surface.triangles), len(sizes) - specks, specks, found, up, why, sure)


def _up(surface: Surface, gaps: list[Hole], span: NDArray[np.float64]) -> tuple[tuple[int, int], str, bool]:
    widest = max(gaps, key=lambda gap: float(np.linalg.norm(gap.facing)), default=None)
    if widest is not None:
        facing = widest.facing
        axis = int(np.argmax(np.abs(facing)))
        side = float(np.prod(np.delete(span, axis)))
        share = float(abs(facing[axis])) / side if side > 0 else 0.0
        if share > _WIDE_OPEN:
            beyond = float(widest.centre[axis]) - _middle(surface, axis)
            cosine = float(abs(facing[axis]) / np.linalg.norm(facing))
            sure = share > _SURE[0] and cosine > _SURE[1] and abs(beyond) > 0.1 * float(span[axis])
            return (axis, 1 if beyond >= 0 else -1), "its largest gap looks that way", sure
    areas = areas_of(surface)
    across = [float(areas[_flat(surface, axis)].sum()) for axis in range(3)]
    axis = int(np.argmax(across))
    return (axis, 1), "it is closed, and most of its flat area lies across that axis", False


def _middle(surface: Surface, axis: int) -> float:
    """Where the surface's area has its middle along an axis."""
    areas = areas_of(surface)
    column = surface.points[:, axis]
    middles = sum(column[surface.triangles[:, k]] for k in range(3)) / 3
    return float((middles * areas).sum() / areas.sum()) if areas.sum() > 0 else float(column.mean())


def _flat(surface: Surface, axis: int) -> NDArray[np.bool_]:
    """Which triangles lie across an axis."""
    a, b, c = (surface.points[surface.triangles[:, k]] for k in range(3))
    normals = np.cross(b - a, c - a)
    found: NDArray[np.bool_] = np.abs(normals[:, axis]) > _FLAT_ACROSS * np.linalg.norm(normals, axis=1)
    return found
