"""The space that can be reached from an opening, in cells, among metal that was scanned."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain
from math import prod

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Opening
from boxfit.surface import Outline, Surface
from boxfit.survey.open_side import TOWARDS
from boxfit.survey.views import VIEWS, outlines_of_cells

Cells = NDArray[np.bool_]

LEAST_PITCH = 5.0
"""The side of a cell [mm], where the block is not so large that it takes larger ones."""
MOST_CELLS = 8_000_000
MOST_SAMPLES = 5_000_000
MOST_AT_ONCE = 500_000
"""Squares round triangles [cells2] that are taken at one time."""
CLOSE = 0.85
"""With edges no longer [cells], any point of a triangle lies within half a cell of a corner."""


@dataclass(frozen=True, eq=False)
class Grid:
    """Cells of a side `pitch` [mm] over the block from `low` to `high`, and less than one beyond.

    They stand out alike at both ends, so that each side of the block lies within the outermost cells.
    """

    low: NDArray[np.float64]
    high: NDArray[np.float64]
    pitch: float

    @property
    def shape(self) -> tuple[int, int, int]:
        """How many cells along each axis."""
        x, y, z = (int(count) + 1 for count in (self.high - self.low) // self.pitch)
        return (x, y, z)

    @property
    def corner(self) -> NDArray[np.float64]:
        """The low corner of the first cell [mm]."""
        found: NDArray[np.float64] = (self.low + self.high - self.pitch * np.array(self.shape)) / 2
        return found

    def centres(self, axis: int) -> NDArray[np.float64]:
        """Where the cells have their middle [mm] along an axis."""
        found: NDArray[np.float64] = self.corner[axis] + (np.arange(self.shape[axis]) + 0.5) * self.pitch
        return found

    def lengths(self, axis: int) -> NDArray[np.float64]:
        """How much of each cell lies within the block [mm], along an axis."""
        ends = np.clip(self.centres(axis)[:-1] + self.pitch / 2, self.low[axis], self.high[axis])
        found: NDArray[np.float64] = np.diff(ends, prepend=self.low[axis], append=self.high[axis])
        return found


@dataclass(frozen=True, eq=False)
class Space:
    """Cells round metal: `metal` holds some of it, `free` is further off than `kept` [mm].

    `entry` are the free cells of the opening, `reached` all that can be reached from them across faces.
    """

    grid: Grid
    kept: float
    metal: Cells
    free: Cells
    entry: Cells
    reached: Cells

    def less(self, closed: Cells) -> "Space":
        """The space with more cells closed."""
        free, entry = self.free & ~closed, self.entry & ~closed
        return replace(self, free=free, entry=entry, reached=joined(free, entry))

    @property
    def volume(self) -> float:
        """That of the room, up to the metal [mm3].

        Cells with metal count half, but for those at the block's sides, of which only the inner half counts.
        """
        radius = self.kept / self.grid.pitch
        half = self.metal & within(self.reached, radius + 1)
        whole = within(self.reached, radius) & ~half
        inner = (slice(1, -1),) * 3
        shares = (whole | half).astype(np.float64)
        shares[inner] -= half[inner] / 2
        x, y, z = (self.grid.lengths(axis) for axis in range(3))
        return float(shares @ z @ y @ x)

    def outlines(self) -> tuple[tuple[Outline, ...], ...]:
        """What the room shows in each view [mm]: never less than it is, and at most 2 cells more."""
        from scipy import ndimage

        room = within(self.reached, self.kept / self.grid.pitch)
        found = []
        for view in VIEWS:
            (unseen,) = {0, 1, 2} - set(view)
            ends = np.stack([self.grid.low[list(view)], self.grid.high[list(view)]])
            shown: NDArray[np.bool_] = ndimage.binary_dilation(np.any(room, axis=unseen), np.ones((3, 3)))
            corner = self.grid.corner[list(view)]
            found.append(outlines_of_cells(shown, corner, self.grid.pitch, ends))
        return tuple(found)


def space_within(surface: Surface, fixed: Sequence[Surface], opening: Opening, tolerance: float) -> Space:
    """What can be reached from the opening's side of the block round the metal.

    Kept off is the tolerance [mm] and one cell: a way narrower than twice the tolerance counts as closed, one
    wider by another six cells never does; between these it depends on how the cells lie. What stays in the
    bay (`fixed`) is metal too.
    """
    grid = _grid_round(surface)
    metal = np.zeros(grid.shape, dtype=bool)
    for one in (surface, *fixed):
        _mark(metal, one, grid)
    kept = tolerance + grid.pitch
    free = ~within(metal, kept / grid.pitch)
    entry = free & _entrance(grid, opening)
    return Space(grid, kept, metal, free, entry, joined(free, entry))


def joined(free: Cells, entry: Cells) -> Cells:
    """The free cells that can be reached from the entry."""
    from scipy import ndimage

    part, count = ndimage.label(free)
    wanted = np.zeros(count + 1, dtype=bool)
    wanted[part[entry]] = True
    wanted[0] = False
    reached: Cells = wanted[part]
    return reached


def within(marked: Cells, radius: float) -> Cells:
    """The cells whose middles lie at most `radius` [cells] from that of a marked one."""
    squares = np.where(marked, 0, 30_000).astype(np.int16)
    for axis in range(3):
        least = squares.copy()
        before, after = np.moveaxis(squares, axis, 0), np.moveaxis(least, axis, 0)
        for step in range(1, min(int(radius), len(before) - 1) + 1):
            np.minimum(after[step:], before[:-step] + np.int16(step**2), out=after[step:])
            np.minimum(after[:-step], before[step:] + np.int16(step**2), out=after[:-step])
        squares = least
    found: Cells = squares <= radius**2
    return found


def _grid_round(surface: Surface) -> Grid:
    """Cells over the block round the metal, of such a size that neither they nor the samples get too many."""
    low, high = np.array(surface.low), np.array(surface.high)
    corners = surface.corners
    twice = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    area = float(np.sqrt(np.einsum("ij,ij->i", twice, twice)).sum()) / 2
    grid = Grid(low, high, max(LEAST_PITCH, (4 * area / MOST_SAMPLES) ** 0.5))
    while prod(grid.shape) > MOST_CELLS:
        grid = replace(grid, pitch=1.05 * grid.pitch)
    return grid


def _mark(metal: Cells, surface: Surface, grid: Grid) -> None:
    """Marks the cells of points on the surface, so close that no way across cell faces leads through it."""
    limits = np.array(grid.shape)
    points = ((surface.points - grid.corner) / grid.pitch).astype(np.float32)
    beyond = bool((points.min(axis=0) < 0).any() or (points.max(axis=0) > limits).any())
    corners = _touching(points[surface.triangles], limits) if beyond else points[surface.triangles]
    for found in chain((points,), _in_parts(corners, limits)):
        inside = found[((found >= 0) & (found <= limits)).all(axis=1)] if beyond else found
        x, y, z = (np.minimum(inside[:, k].astype(np.int64), limits[k] - 1) for k in range(3))
        metal.ravel()[(x * limits[1] + y) * limits[2] + z] = True


def _in_parts(corners: NDArray[np.float32], limits: NDArray[np.int64]) -> Iterator[NDArray[np.float32]]:
    """The points on triangles, so few triangles at a time that large ones that overlap take no more room."""
    sides = np.ptp(corners, axis=1).max(axis=1)
    part = (np.cumsum(np.maximum(sides, 1.0) ** 2, dtype=np.float64) / MOST_AT_ONCE).astype(np.int64)
    for few in np.split(corners, np.flatnonzero(np.diff(part)) + 1):
        yield from _points_between(few, limits)


def _touching(corners: NDArray[np.float32], limits: NDArray[np.int64]) -> NDArray[np.float32]:
    """The triangles that may have a point within the limits [cells]."""
    low, high = corners.min(axis=1), corners.max(axis=1)
    found: NDArray[np.float32] = corners[((high >= 0) & (low <= limits)).all(axis=1)]
    return found


def _points_between(corners: NDArray[np.float32], limits: NDArray[np.int64]) -> Iterator[NDArray[np.float32]]:
    """Points on triangles such that none of a triangle is further from one than half a cell.

    The corners alone will do where the edges are short, and the middles of the edges where they are less
    than twice that; triangles larger still are halved across their longest edge first. Those wholly outside
    the limits [cells] are left out.
    """
    while len(corners):
        edges = corners[:, [1, 2, 0]] - corners
        squares = np.einsum("ijk,ijk->ij", edges, edges)
        most = squares.max(axis=1)
        yield (corners + edges / 2)[(most > CLOSE**2) & (most <= 4 * CLOSE**2)].reshape(-1, 3)
        large = most > 4 * CLOSE**2
        corners, longest = corners[large], squares[large].argmax(axis=1)
        rows = np.arange(len(corners))
        one, other, apex = (corners[rows, (longest + shift) % 3] for shift in range(3))
        middle = (one + other) / 2
        yield middle
        halves = (np.stack([one, middle, apex], axis=1), np.stack([middle, other, apex], axis=1))
        corners = _touching(np.concatenate(halves), limits)


def _entrance(grid: Grid, opening: Opening) -> Cells:
    """The cells of the block's side that the opening takes."""
    import shapely

    axis, sign = TOWARDS[opening.way]
    across = [k for k in range(3) if k != axis]
    cells = np.zeros(grid.shape, dtype=bool)
    layer = np.moveaxis(cells, axis, 0)[-1 if sign > 0 else 0]
    layer[:] = True
    if opening.outline is not None:
        a, b = np.meshgrid(*(grid.centres(k) for k in across), indexing="ij")
        layer &= shapely.contains_xy(shapely.Polygon(opening.outline), a, b)
    return cells
