"""What a room shows from above, from the side and from behind: outlines that hold all of it."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from boxfit.surface import LEAST_PART, Outline, Surface

Axes = tuple[int, int]
Mask = NDArray[np.bool_]
Flat = NDArray[np.float64]

PLAN, SIDE, REAR = (0, 1), (0, 2), (1, 2)
VIEWS: tuple[Axes, Axes, Axes] = (PLAN, SIDE, REAR)
"""The two car axes a view shows: across and up its page."""

FEW = 3000
"""Up to so many triangles the outline is exact."""
DIGITS = 6
GRAIN = 10.0**-DIGITS
"""Corners of outlines are told apart by this much [mm]."""
PITCH = 1.0
"""The side [mm] of the cells that the outline of a large surface follows."""
SPACING = 1.9
"""How far apart such points are, in cells: the cells next to theirs then hold all between them."""
MOST_SAMPLES = 8_000_000
"""Points put on the edges of a large surface; where they would not do, the cells grow."""
STRAIGHT = 1.0
"""Outlines along cells are straightened by so much [cells]: enough for the steps of a slanting side."""


def outlines_of(surface: Surface, views: Sequence[Axes] = VIEWS) -> tuple[tuple[Outline, ...], ...]:
    """The outer boundary [mm] of a closed surface in each view.

    Counter-clockwise, the largest part first, holes left out, no corner on a straight line. Up to 3000
    triangles it is exact, and corners that are points of the surface come back as they are; beyond, it holds
    every point and is some 4 mm larger at most (more only where all edges together are longer than 16 km).
    """
    if len(surface.triangles) <= FEW:
        return tuple(_exact(surface, axes) for axes in views)
    pitch, samples = _samples(surface)
    return tuple(_traced(surface, samples, axes, pitch) for axes in views)


def outlines_of_cells(cells: Mask, corner: Flat, pitch: float, block: Flat) -> tuple[Outline, ...]:
    """The outer boundary [mm] of the cells a mask marks, the first of which has its low corner at `corner`.

    It is straightened by up to a cell and grown by as much, so that it still holds every cell, then
    cut to the block, given by its low and high corner.
    """
    import shapely

    outside = np.zeros((cells.shape[0], 1), dtype=bool)
    steps = np.diff(np.hstack([outside, cells, outside]).astype(np.int8), axis=1)
    row, start = np.nonzero(steps == 1)
    end = np.nonzero(steps == -1)[1]
    # Counted in cells, corners are whole numbers, which need no grid to meet on.
    whole = shapely.union_all(shapely.box(row, start, row + 1, end))
    slack = STRAIGHT * pitch
    straight = shapely.transform(whole, lambda cell: np.round(corner + cell * pitch, DIGITS)).simplify(slack)
    (low_x, low_y), (high_x, high_y) = block
    grown = straight.buffer(slack, join_style="mitre", mitre_limit=2.0)
    rings = _rings(grown.intersection(shapely.box(low_x, low_y, high_x, high_y)))
    return tuple(
        tuple((min(max(x, low_x), high_x), min(max(y, low_y), high_y)) for x, y in ring) for ring in rings
    )


def _exact(surface: Surface, axes: Axes) -> tuple[Outline, ...]:
    """The outline of all triangles, laid flat."""
    import shapely

    flat = surface.points[:, list(axes)]
    corners = flat[surface.triangles]
    one, other = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    area = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]
    pieces = shapely.polygons(corners[np.abs(area) > GRAIN])
    exact = {(round(x, DIGITS), round(y, DIGITS)): (x, y) for x, y in flat.tolist()}
    rings = _rings(shapely.union_all(pieces, grid_size=GRAIN))
    return tuple(
        tuple(exact.get((round(x, DIGITS), round(y, DIGITS)), (x, y)) for x, y in ring) for ring in rings
    )


def _samples(surface: Surface) -> tuple[float, NDArray[np.float32]]:
    """A pitch [mm], and points from the surface's low corner on all edges, less than two of it apart.

    The outer boundary of triangles is made of their edges. Around a closed surface every edge runs both
    ways, once in each of its triangles, so that one way is enough.
    """
    points = (surface.points - surface.points.min(axis=0)).astype(np.float32)
    triangles = surface.triangles.astype(np.int32)
    edges = [triangles[:, [k, (k + 1) % 3]] for k in range(3)]
    once = np.concatenate([edge[edge[:, 0] < edge[:, 1]] for edge in edges])
    start = points[once[:, 0]]
    along = points[once[:, 1]] - start
    length = np.sqrt(np.einsum("ij,ij->i", along, along))
    pitch = max(PITCH, float(length.sum(dtype=np.float64)) / (2 * MOST_SAMPLES))
    between = np.ceil(length / (SPACING * pitch)).astype(np.int64) - 1
    between = np.maximum(between, 0)
    edge = np.repeat(np.arange(len(between)), between)
    number = np.arange(len(edge)) - np.repeat(np.cumsum(between) - between, between) + 1
    share = (number / (between[edge] + 1)).astype(np.float32)
    return pitch, np.concatenate([points, start[edge] + along[edge] * share[:, None]])


def _traced(surface: Surface, samples: NDArray[np.float32], axes: Axes, pitch: float) -> tuple[Outline, ...]:
    """The outline along cells: those of the samples and all next to them, which hold all edges."""
    from scipy import ndimage

    flat = surface.points[:, list(axes)]
    block = np.stack([flat.min(axis=0), flat.max(axis=0)])
    across, up = ((samples[:, axis] / np.float32(pitch)).astype(np.int64) + 2 for axis in axes)
    shape = np.ceil((block[1] - block[0]) / pitch).astype(np.int64) + 5
    cells = np.zeros(shape, dtype=bool)
    cells.ravel()[across * shape[1] + up] = True
    cells = ndimage.binary_dilation(cells, np.ones((3, 3), dtype=bool))
    outside, _ = ndimage.label(~cells)
    return outlines_of_cells(outside != outside[0, 0], block[0] - 2 * pitch, pitch, block)


def _rings(whole: BaseGeometry) -> tuple[Outline, ...]:
    """The outer rings of an area as outlines, in order."""
    import shapely

    parts = [part for part in shapely.get_parts(whole) if part.geom_type == "Polygon"]
    filled = shapely.union_all([shapely.Polygon(part.exterior) for part in parts])
    parts = sorted(shapely.get_parts(filled), key=lambda part: (-part.area, part.bounds))
    largest = parts[0].area if parts else 0.0
    kept = [part for part in parts if part.area >= LEAST_PART * largest]
    return tuple(_straightened(np.asarray(part.exterior.coords)[:-1]) for part in kept)


def _straightened(ring: Flat) -> Outline:
    """The ring counter-clockwise from its least corner on, less the corners on a straight line."""
    x, y = ring[:, 0], ring[:, 1]
    if float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y)) < 0:
        ring = ring[::-1]
    first = min(range(len(ring)), key=lambda k: (ring[k][0], ring[k][1]))
    corners: list[tuple[float, float]] = [(float(a), float(b)) for a, b in np.roll(ring, -first, axis=0)]
    kept = corners[:1]
    for here, following in zip(corners[1:], corners[2:] + corners[:1], strict=True):
        if not _between(kept[-1], here, following):
            kept.append(here)
    return tuple(kept)


def _between(before: tuple[float, float], here: tuple[float, float], after: tuple[float, float]) -> bool:
    """True where a corner lies on the straight line between its neighbours."""
    (ax, ay), (bx, by), (cx, cy) = before, here, after
    area = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
    length: float = np.hypot(cx - ax, cy - ay)
    return abs(area) <= 2 * GRAIN * length and (bx - ax) * (cx - bx) + (by - ay) * (cy - by) >= 0
