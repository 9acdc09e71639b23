"""Scans as they come from a hand-held scanner, made up: noise, holes, specks, triangles double and turned."""

from dataclasses import dataclass
from math import ceil, dist
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Outline, Surface

Points = NDArray[np.float64]
Numbers = NDArray[np.int64]

RECTANGLE: Outline = ((-400.0, -300.0), (400.0, -300.0), (400.0, 300.0), (-400.0, 300.0))
APART = 60.0
"""Least distance [mm] between the middles of two holes, so that none run into each other."""


@dataclass(frozen=True)
class Scan:
    """A room between two levels as triangles of about `pitch` [mm], and how the scan of it is worse.

    Every point is off by up to `noise` [mm] along the normal there; `holes` gaps of up to 20 mm are missing,
    `specks` islands of up to 8 mm float about; the shares `double` and `turned` of the triangles are there
    twice, and wind the wrong way. `open_above` leaves out the top.
    """

    outline: Outline = RECTANGLE
    floor: float = 200.0
    top: float = 600.0
    pitch: float = 20.0
    noise: float = 0.0
    holes: int = 0
    specks: int = 0
    double: float = 0.0
    turned: float = 0.0
    open_above: bool = False
    seed: int = 1


def noisy_scan(scan: Scan) -> Surface:
    """The scan; the same for the same `scan`."""
    chance = np.random.default_rng(scan.seed)
    points, triangles = _prism(scan)
    normals = np.stack([_spread(points, triangles, axis) for axis in range(3)], axis=1)
    normals /= np.linalg.norm(normals, axis=1)[:, None]
    points = points + normals * chance.uniform(-scan.noise, scan.noise, (len(points), 1))
    triangles = _punched(points, triangles, scan, chance)
    points, triangles = _with_specks(points, triangles, scan.specks, chance)
    count = len(triangles)
    again = triangles[chance.choice(count, round(scan.double * count), replace=False)]
    again[::2] = again[::2, ::-1]
    triangles = np.concatenate([triangles, again])
    wrong = chance.choice(count, round(scan.turned * count), replace=False)
    triangles[wrong] = triangles[wrong][:, ::-1]
    return Surface(points, triangles)


def pitch_for(triangles: int) -> float:
    """The pitch [mm] at which the usual room has about that many triangles."""
    area = 2 * 800 * 600 + 2 * (800 + 600) * 400
    return float((2 * area / triangles) ** 0.5)


def save_stl(surface: Surface, path: Path) -> Path:
    """Writes a binary .stl."""
    kind = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("rest", "<u2")])
    rows = np.zeros(len(surface.triangles), dtype=kind)
    rows["corners"] = surface.corners
    path.write_bytes(bytes(80) + len(rows).to_bytes(4, "little") + rows.tobytes())
    return path


def _prism(scan: Scan) -> tuple[Points, Numbers]:
    rim = _divided(scan.outline, scan.pitch)
    rows = ceil((scan.top - scan.floor) / scan.pitch)
    around, inner = len(rim), _inside(scan.outline, rim, scan.pitch)
    cap = _cap(np.concatenate([rim, inner]), scan.outline)
    levels = np.linspace(scan.floor, scan.top, rows + 1)
    walls = np.column_stack([np.tile(rim, (rows + 1, 1)), np.repeat(levels, around)])
    here = (np.arange(rows)[:, None] * around + np.arange(around)).ravel()
    beside = (np.arange(rows)[:, None] * around + np.roll(np.arange(around), -1)).ravel()
    sides = np.concatenate(
        [
            np.column_stack([here, beside, here + around]),
            np.column_stack([beside, beside + around, here + around]),
        ]
    )
    below = np.column_stack([inner, np.full(len(inner), scan.floor)])
    above = np.column_stack([inner, np.full(len(inner), scan.top)])
    low = np.r_[np.arange(around), len(walls) + np.arange(len(inner))]
    high = np.r_[rows * around + np.arange(around), len(walls) + len(inner) + np.arange(len(inner))]
    if scan.open_above:
        return np.concatenate([walls, below]), np.concatenate([sides, low[cap[:, ::-1]]])
    return np.concatenate([walls, below, above]), np.concatenate([sides, low[cap[:, ::-1]], high[cap]])


def _divided(outline: Outline, pitch: float) -> Points:
    parts = []
    for here, there in zip(outline, [*outline[1:], outline[0]], strict=True):
        count = ceil(dist(here, there) / pitch)
        share = np.arange(count)[:, None] / count
        parts.append(np.array(here) * (1 - share) + np.array(there) * share)
    return np.concatenate(parts)


def _inside(outline: Outline, rim: Points, pitch: float) -> Points:
    """A grid of points inside, no nearer to the rim than lets its own edges be edges of triangles."""
    import shapely

    low, high = rim.min(axis=0), rim.max(axis=0)
    x, y = (np.arange(low[k] + pitch / 2, high[k], pitch) for k in range(2))
    grid = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1).reshape(-1, 2)
    inner = shapely.Polygon(outline).buffer(-0.55 * pitch)
    shapely.prepare(inner)
    found: Points = grid[shapely.contains_xy(inner, grid)]
    return found


def _cap(points: Points, outline: Outline) -> Numbers:
    """The triangles between the points, counter-clockwise, those outside the outline left out."""
    import shapely
    from scipy.spatial import Delaunay

    triangles = Delaunay(points).simplices.astype(np.int64)
    a, b, c = (points[triangles[:, k]] for k in range(3))
    area = (b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]
    triangles[area < 0] = triangles[area < 0][:, ::-1]
    room = shapely.Polygon(outline)
    shapely.prepare(room)
    found: Numbers = triangles[(np.abs(area) > 1e-6) & shapely.contains_xy(room, (a + b + c) / 3)]
    return found


def _spread(points: Points, triangles: Numbers, axis: int) -> Points:
    """One coordinate of the normal at every point, not of unit length."""
    a, b, c = (points[triangles[:, k]] for k in range(3))
    normals = np.cross(b - a, c - a)
    found = np.bincount(triangles.ravel(), np.repeat(normals[:, axis], 3), minlength=len(points))
    return found.astype(np.float64)


def _punched(points: Points, triangles: Numbers, scan: Scan, chance: np.random.Generator) -> Numbers:
    from scipy.spatial import cKDTree

    middles = points[triangles].mean(axis=1)
    centres: list[Points] = []
    for number in chance.permutation(len(triangles))[: 200 * scan.holes]:
        at = middles[number]
        if scan.open_above and at[2] > scan.top - APART:
            continue
        if len(centres) < scan.holes and all(float(np.linalg.norm(at - other)) > APART for other in centres):
            centres.append(at)
    out = np.zeros(len(triangles), dtype=np.bool_)
    tree = cKDTree(middles) if centres else None
    for at in centres:
        assert tree is not None
        out[tree.query_ball_point(at, max(9.0 - scan.pitch, 0.0))] = True
    return triangles[~out]


def _with_specks(
    points: Points, triangles: Numbers, count: int, chance: np.random.Generator
) -> tuple[Points, Numbers]:
    corner = np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]], dtype=np.float64)
    faces = np.array([[0, 2, 1], [0, 1, 3], [1, 2, 3], [0, 3, 2]])
    low, high = points.min(axis=0), points.max(axis=0)
    at = chance.uniform(low + 30, high - 30, (count, 1, 3))
    specks = at + corner * chance.uniform(1.0, 8.0, (count, 1, 1))
    numbers = len(points) + 4 * np.arange(count)[:, None, None] + faces
    return np.concatenate([points, specks.reshape(-1, 3)]), np.concatenate(
        [triangles, numbers.reshape(-1, 3)]
    )
