"""The narrowest place on a way through metal: where, how wide, and which way it leads."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Vector
from boxfit.survey.reached import Cells, Space, joined, within

Clearance = NDArray[np.int32]
Coordinates = NDArray[np.float64]

LOOK = 60
"""How far round a throat its hole is measured [cells]; what is wider is not."""
NEAR = 3.0
"""By so much a hole is wider than what is left of it off the cells next to metal [cells]."""


@dataclass(frozen=True)
class Throat:
    """A hole round `at` [mm] that leads `towards` (a direction of length 1), `width` by `height` [mm].

    Both sizes are infinite where it is too wide to be measured, or has no edge all round.
    """

    at: Vector
    towards: Vector
    width: float
    height: float


def throat_of(space: Space, clearance: Clearance, ends: Cells) -> Throat:
    """The narrowest place on the widest way from the entry to one of the ends, which are reached.

    `clearance` is how far each cell is from metal [cells, the largest of the three axes']. The free cells
    are closed from the metal on until no way is left: the place closed last is the throat.
    """
    level = _last_open(space, clearance, ends)
    passing = _one_part(space.free & (clearance >= level), space.entry, ends)
    wider = passing & (clearance > level)
    before = joined(wider, wider & space.entry)
    before = before if before.any() else passing & space.entry
    behind = joined(wider, wider & ends)
    behind = behind if behind.any() else passing & ends
    path = _path(passing, before, behind)
    centre = np.array(path[len(path) // 2]) + 0.5
    return _measured(space, centre, np.array(path[-1]) - np.array(path[0]))


def _last_open(space: Space, clearance: Clearance, ends: Cells) -> int:
    """The largest clearance [cells] at which an end can still be reached."""
    shut = int(clearance[space.reached].max()) + 1
    still = 0
    while shut - still > 1:
        level = (still + shut) // 2
        free = space.free & (clearance >= level)
        if (joined(free, free & space.entry) & ends).any():
            still = level
        else:
            shut = level
    return still


def _one_part(free: Cells, entry: Cells, ends: Cells) -> Cells:
    """The first connected part of the free cells with cells of both."""
    from scipy import ndimage

    part, _ = ndimage.label(free)
    both = np.intersect1d(part[free & entry], part[free & ends])
    found: Cells = part == both[0]
    return found


def _path(free: Cells, before: Cells, behind: Cells) -> list[tuple[int, ...]]:
    """Cells of a shortest way from `before` to `behind` through free cells, its ends included."""
    from scipy import ndimage

    shape = tuple(size + 2 for size in free.shape)
    unseen, goal = (np.pad(cells, 1).ravel() for cells in (free & ~before, behind))
    border = before & (ndimage.binary_dilation(free & ~before) | behind)
    steps = np.array([shape[1] * shape[2], shape[2], 1])
    layers = [np.flatnonzero(np.pad(border, 1))]
    parents = [layers[0]]
    while not goal[layers[-1]].any():
        nearer = np.tile(layers[-1], 6)
        found = (layers[-1] + np.concatenate([steps, -steps])[:, None]).ravel()
        new = unseen[found]
        found, first = np.unique(found[new], return_index=True)
        unseen[found] = False
        layers.append(found)
        parents.append(nearer[new][first])
    arrived = layers[-1][goal[layers[-1]]]
    places = np.column_stack(np.unravel_index(arrived, shape))
    here = int(arrived[np.abs(places - places.mean(axis=0)).sum(axis=1).argmin()])
    path = [here]
    for layer, parent in zip(layers[:0:-1], parents[:0:-1], strict=True):
        here = int(parent[np.searchsorted(layer, here)])
        path.append(here)
    return [tuple(int(k) - 1 for k in np.unravel_index(cell, shape)) for cell in reversed(path)]


def _measured(space: Space, centre: Coordinates, onwards: Coordinates) -> Throat:
    """The hole round a place [cells]: its middle and its sizes, in the plane of the metal round it."""
    metal = np.argwhere(space.metal) + 0.5
    normal, sizes = onwards.astype(np.float64), (0.0, 0.0)
    for _ in range(2):
        off = np.sqrt(((metal - centre) ** 2).sum(axis=1))
        edge = metal[off <= off.min() + 3]
        normal = np.linalg.svd(edge - edge.mean(axis=0), full_matrices=False)[2][-1]
        across = np.array([-normal[1], normal[0], 0.0]) if np.hypot(*normal[:2]) > 0.1 else np.eye(3)[0]
        across -= normal * (across @ normal)
        across /= np.linalg.norm(across)
        frame = np.stack([across, np.cross(normal, across)])
        in_plane = centre + normal * (normal @ (edge.mean(axis=0) - centre))
        shift, sizes = _spans(space, in_plane, frame)
        if np.isinf(sizes[0]):
            break
        centre = in_plane + shift @ frame
    if normal @ onwards < 0:
        normal = -normal
    width, height = sizes
    x, y, z = (float(value) for value in space.grid.corner + centre * space.grid.pitch)
    dx, dy, dz = (float(value) for value in normal)
    return Throat((x, y, z), (dx, dy, dz), width * space.grid.pitch, height * space.grid.pitch)


def _spans(space: Space, centre: Coordinates, frame: Coordinates) -> tuple[Coordinates, tuple[float, float]]:
    """How far the hole's middle is off the centre in a plane through metal, and the hole's sizes [cells]."""
    from scipy import ndimage

    steps = np.arange(-2 * LOOK, 2 * LOOK + 1) / 2
    plane = centre + steps[:, None, None] * frame[0] + steps[None, :, None] * frame[1]
    near = within(space.metal, 1.0)
    limits = np.array(near.shape)
    cells = np.floor(plane).astype(np.int64)
    inside = ((cells >= 0) & (cells < limits)).all(axis=2)
    x, y, z = np.moveaxis(np.clip(cells, 0, limits - 1), 2, 0)
    part, _ = ndimage.label(inside & ~near[x, y, z])
    number = part[2 * LOOK, 2 * LOOK]
    if number == 0:
        return np.zeros(2), (np.inf, np.inf)
    spans = [steps[(part == number).any(axis=1 - axis)] for axis in (0, 1)]
    across, up = (float(np.ptp(span)) + NEAR if np.abs(span).max() < LOOK else float("inf") for span in spans)
    return np.array([(span.min() + span.max()) / 2 for span in spans]), (across, up)
