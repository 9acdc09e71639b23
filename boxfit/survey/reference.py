"""A taped distance against the same distance in a survey, to catch a wrong unit or scale."""

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Surface, Vector
from boxfit.survey.fault import SurveyError

REACH = 20.0
"""How far [mm] a named point may lie from the surface, or three tolerances where that is more."""

Points = NDArray[np.float64]


def check_reference(
    surface: Surface, between: tuple[Vector, Vector], taped: float, tolerance: float
) -> float:
    """The distance [mm] between the two places of the surface nearest to the two points.

    Raises SurveyError where a point lies off the surface, or the distance is not the taped one [mm] within
    the tolerance [mm].
    """
    reach = max(REACH, 3.0 * tolerance)
    places = []
    for number, point in enumerate(between, start=1):
        place = _nearest(surface, np.array(point))
        away = float(np.linalg.norm(place - np.array(point)))
        if away > reach:
            raise SurveyError(
                "reference.between",
                f"point {number} must lie on the surveyed surface, within {_shown(reach)} mm of it",
                "check the point, and the survey's unit, turn and move",
                f"{_shown(away)} mm from the surface",
            )
        places.append(place)
    measured = float(np.linalg.norm(places[1] - places[0]))
    if abs(measured - taped) > tolerance:
        raise SurveyError(
            "reference",
            f"the scan has {_shown(measured)} mm between the two points, the tape {_shown(taped)}:"
            f" out by {_shown(abs(measured - taped))}, more than the tolerance {_shown(tolerance)}",
            f"check the unit and the two points; {_scale(taped, measured)}scan again if neither is wrong",
        )
    return measured


def _scale(taped: float, measured: float) -> str:
    """What the scan would have to be multiplied by; nothing where the two places are one."""
    return f"the scan would be right if {taped / measured:.4f} times as large; " if measured > 0.0 else ""


def _shown(value: float) -> str:
    """Millimetres to a tenth, without a useless nought.

    >>> _shown(1000.0), _shown(9.234)
    ('1000', '9.2')
    """
    return f"{value:.1f}".removesuffix(".0")


def _nearest(surface: Surface, point: Points) -> Points:
    """The place of the surface nearest to a point; only triangles whose block comes near are looked at."""
    one, two, three = surface.triangles.T
    near = float(((surface.points[one] - point) ** 2).sum(axis=1).min())
    short = np.zeros(len(one))
    for axis in range(3):
        away = surface.points[:, axis] - point[axis]
        first, second, third = away[one], away[two], away[three]
        low = np.minimum(np.minimum(first, second), third)
        high = np.maximum(np.maximum(first, second), third)
        short += np.maximum(np.maximum(low, -high), 0.0) ** 2
    places = _nearest_on(surface.points[surface.triangles[short <= near * (1.0 + 1e-9)]], point)
    found: Points = places[int(np.argmin(((places - point) ** 2).sum(axis=1)))]
    return found


def _nearest_on(corners: Points, point: Points) -> Points:
    """The place of each triangle (m, 3, 3) nearest to a point: on its face, or else on an edge of it."""
    after = np.roll(corners, -1, axis=1)
    edges = after - corners
    lengths = np.maximum(np.einsum("ijk,ijk->ij", edges, edges), 1e-300)
    parts = np.clip(np.einsum("ijk,ijk->ij", point - corners, edges) / lengths, 0.0, 1.0)
    on_edges = corners + parts[..., None] * edges
    rows = np.arange(len(corners))
    best: Points = on_edges[rows, np.argmin(((on_edges - point) ** 2).sum(axis=2), axis=1)]
    normal = np.cross(edges[:, 0], edges[:, 1])
    area = np.maximum(np.einsum("ij,ij->i", normal, normal), 1e-300)
    foot = point - (np.einsum("ij,ij->i", point - corners[:, 0], normal) / area)[:, None] * normal
    turns = np.einsum("ijk,ik->ij", np.cross(edges, foot[:, None] - corners), normal)
    inside = (turns > 0.0).all(axis=1)
    best[inside] = foot[inside]
    return best
