"""What a solid of triangles covers when it is looked at."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Outline, Surface

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

Signed = tuple[int, int]
"""A car axis (0, 1, 2 for x, y, z) and the way it runs: 1 or -1."""
Numbers = NDArray[np.float64]

EXACT = 1500
"""Up to so many triangles are joined exactly; more are painted, and the edge of the paint is followed."""
CELLS = 700
"""Cells of the raster along the longer side: finer than a line on paper."""
SPECK = 2.0
"""Painted parts no larger than this are left out [cells]."""

THIN = 15.0
"""A rough outline is cut back where it stands outside the triangles by less [mm]."""


def silhouettes(surface: Surface, axes: tuple[Signed, Signed]) -> tuple[Outline, ...]:
    """The outlines [mm] of all triangles together, seen across two axes, the largest first, without holes.

    Exact for few triangles; for many to within a cell, a seven-hundredth of the longer side.
    """
    from shapely import Polygon, polygons, unary_union

    corners = np.stack([surface.corners[:, :, axis] * way for axis, way in axes], axis=2)
    if len(corners) <= EXACT:
        seen = unary_union(polygons(corners[_areas(corners) > 0.0]))
    else:
        seen = _painted(corners)
    parts = sorted(_parts(seen), key=lambda part: float(part.area), reverse=True)
    return tuple(_outline(part) for part in parts if isinstance(part, Polygon) and part.area > 0.0)


@lru_cache(maxsize=64)
def trimmed(
    surface: Surface, rough: tuple[Outline, ...], axes: tuple[Signed, Signed], tolerance: float
) -> tuple[Outline, ...]:
    """The outlines [mm] of a room as they are drawn, from rough ones that hold all of it.

    Those stand some millimetres outside a scan; they are cut back to what its triangles cover wherever that
    takes no more than `THIN`, and straightened within the survey's tolerance [mm], or they would look ragged.
    """
    from shapely import Polygon, unary_union

    if len(surface.triangles) <= EXACT:
        return rough
    room = unary_union([Polygon(outline) for outline in rough])
    metal = unary_union([Polygon(outline) for outline in silhouettes(surface, axes)])
    wide = room.difference(metal).buffer(-THIN / 2).buffer(THIN, join_style="mitre")
    whole = room.intersection(unary_union([metal, wide])).buffer(0.0).simplify(tolerance)
    parts = sorted(_parts(whole), key=lambda part: float(part.area), reverse=True)
    kept = [part for part in parts if isinstance(part, Polygon) and part.area > THIN**2]
    return tuple(_outline(part) for part in kept)


def _areas(corners: Numbers) -> Numbers:
    """Twice the areas of flat triangles."""
    one, other = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    found: Numbers = np.abs(one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0])
    return found


def _painted(corners: Numbers) -> BaseGeometry:
    """The triangles painted on a raster, and the edge of the paint followed."""
    from contourpy import FillType, contour_generator
    from PIL import Image, ImageDraw
    from shapely import MultiPolygon, Polygon

    low, high = corners.min(axis=(0, 1)), corners.max(axis=(0, 1))
    cell = max(float((high - low).max()) / CELLS, 1e-6)
    across, upwards = (int(size) + 5 for size in (high - low) / cell)
    image = Image.new("L", (across, upwards))
    brush = ImageDraw.Draw(image)
    for triangle in ((corners - low) / cell + 2.0).reshape(-1, 6).tolist():
        brush.polygon(triangle, fill=1)
    filled = contour_generator(z=np.asarray(image, dtype=float), fill_type=FillType.OuterOffset)
    rings, starts = filled.filled(0.5, np.inf)[:2]
    outlines = [
        (ring[: start[1]] - 2.0) * cell + low
        for ring, start in zip(rings, starts, strict=True)
        if ring is not None and start is not None
    ]
    found = [Polygon(outline).simplify(cell) for outline in outlines]
    return MultiPolygon([part for part in found if part.area > SPECK * cell**2])


def _parts(shape: BaseGeometry) -> list[BaseGeometry]:
    return list(getattr(shape, "geoms", [shape]))


def _outline(part: Polygon) -> Outline:
    from shapely.geometry.polygon import orient

    return tuple((float(x), float(y)) for x, y in list(orient(part).exterior.coords)[:-1])
