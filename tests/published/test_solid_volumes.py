"""Volumes of solids against the formulae of a handbook, and against two other programs' sums.

Formulae: Bronshtein and Semendyayev, Handbook of Mathematics, section on solids; all from memory.
"""

from math import cos, pi, sin, sqrt, tan

import numpy as np
import pytest

from boxfit.bay import Block, Cylinder
from boxfit.surface import Outline, Surface
from boxfit.survey.sections import lofted
from boxfit.survey.solids import as_surface
from boxfit.survey.volume import volume_of


def rectangle(wide: float, tall: float) -> Outline:
    """Round the origin."""
    return ((-wide / 2, -tall / 2), (wide / 2, -tall / 2), (wide / 2, tall / 2), (-wide / 2, tall / 2))


def regular(count: int, radius: float, turn: float = 0.0) -> Outline:
    """A regular polygon by the radius of its corners."""
    angles = [turn + 2.0 * pi * k / count for k in range(count)]
    return tuple((radius * cos(angle), radius * sin(angle)) for angle in angles)


def area(outline: Outline) -> float:
    """Gauss's shoelace formula."""
    ends = zip(outline, (*outline[1:], outline[0]), strict=True)
    return sum(y * far_z - far_y * z for (y, z), (far_y, far_z) in ends) / 2.0


def mesh(points: list[tuple[float, float, float]], triangles: list[tuple[int, int, int]]) -> Surface:
    return Surface(np.array(points), np.array(triangles, dtype=np.int64))


def prismatoid(height: float, base: float, middle: float, top: float) -> float:
    """V = h / 6 (A1 + 4 Am + A2)."""
    return height / 6.0 * (base + 4.0 * middle + top)


def obelisk(height: float, base: tuple[float, float], top: tuple[float, float]) -> float:
    """V = h / 6 ((2 a + a1) b + (2 a1 + a) b1), sides parallel."""
    (a, b), (a1, b1) = base, top
    return height / 6.0 * ((2.0 * a + a1) * b + (2.0 * a1 + a) * b1)


def frustum(height: float, base: float, top: float) -> float:
    """V = h / 3 (A1 + sqrt(A1 A2) + A2), of a pyramid cut parallel to its base."""
    return height / 3.0 * (base + sqrt(base * top) + top)


def wedge(height: float, base: tuple[float, float], ridge: float) -> float:
    """V = b h / 6 (2 a + a1), the ridge a1 parallel to the sides a."""
    a, b = base
    return b * height / 6.0 * (2.0 * a + ridge)


TETRAHEDRON = mesh(
    [(1.0, 1.0, 1.0), (1.0, -1.0, -1.0), (-1.0, 1.0, -1.0), (-1.0, -1.0, 1.0)],
    [(0, 1, 2), (0, 3, 1), (0, 2, 3), (1, 3, 2)],
)
OCTAHEDRON = mesh(
    [(1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)],
    [(0, 1, 4), (1, 2, 4), (2, 3, 4), (3, 0, 4), (1, 0, 5), (2, 1, 5), (3, 2, 5), (0, 3, 5)],
)
ROOF = mesh(
    [
        (0.0, 0.0, 0.0),
        (90.0, 0.0, 0.0),
        (90.0, 40.0, 0.0),
        (0.0, 40.0, 0.0),
        (20.0, 20.0, 35.0),
        (50.0, 20.0, 35.0),
    ],
    [(0, 2, 1), (0, 3, 2), (0, 1, 5), (0, 5, 4), (1, 2, 5), (2, 3, 4), (2, 4, 5), (3, 0, 4)],
)
OBELISK = lofted([(0.0, rectangle(90.0, 40.0)), (70.0, rectangle(30.0, 60.0))])
PYRAMID = lofted([(10.0, regular(5, 80.0)), (130.0, regular(5, 20.0))])
SECTOR_ANGLE = 1.2
SECTOR: Outline = (
    (0.0, 0.0),
    *((150.0 * cos(SECTOR_ANGLE * k / 200), 150.0 * sin(SECTOR_ANGLE * k / 200)) for k in range(201)),
)
SECTOR_BAR = lofted([(0.0, SECTOR), (300.0, SECTOR)])
BAR = as_surface(Cylinder((0.0, 0.0, 0.0), (300.0, 400.0, 0.0), 60.0))

SOLIDS = {
    "block": (as_surface(Block((1.0, 2.0, 3.0), (11.0, 22.0, 33.0))), 6000.0, 1e-12),
    # Edge c = 2 sqrt 2: V = c^3 sqrt 2 / 12.
    "tetrahedron": (TETRAHEDRON, (2.0 * sqrt(2.0)) ** 3 * sqrt(2.0) / 12.0, 1e-12),
    # Edge c = sqrt 2: V = c^3 sqrt 2 / 3.
    "octahedron": (OCTAHEDRON, sqrt(2.0) ** 3 * sqrt(2.0) / 3.0, 1e-12),
    "wedge": (ROOF, wedge(35.0, (90.0, 40.0), 30.0), 1e-12),
    "obelisk": (OBELISK, obelisk(70.0, (90.0, 40.0), (30.0, 60.0)), 1e-12),
    "obelisk as a prismatoid": (OBELISK, prismatoid(70.0, 90.0 * 40.0, 60.0 * 50.0, 30.0 * 60.0), 1e-12),
    "frustum": (PYRAMID, frustum(120.0, area(regular(5, 80.0)), area(regular(5, 20.0))), 1e-12),
    # V = r^2 angle h / 2; chords of 0.006 rad lose 0.006^2 / 6.
    "sector": (SECTOR_BAR, 150.0**2 * SECTOR_ANGLE / 2.0 * 300.0, 6.1e-6),
    # V = pi r^2 h; sides that touch from outside gain tan(x) / x - 1 for half a side's angle x.
    "bar": (BAR, pi * 30.0**2 * 500.0 * tan(pi / 56.0) / (pi / 56.0), 1e-9),
}


@pytest.mark.parametrize("name", SOLIDS)
def test_against_the_handbook(name: str) -> None:
    surface, volume, slack = SOLIDS[name]
    assert volume_of(surface) == pytest.approx(volume, rel=slack)
    assert surface.off == 0.0


@pytest.mark.parametrize("name", SOLIDS)
def test_against_two_other_programs(name: str) -> None:
    """trimesh and manifold3d, of the same triangles; the second also finds them a sound closed solid."""
    import manifold3d
    import trimesh

    surface = SOLIDS[name][0]
    other = trimesh.Trimesh(surface.points, surface.triangles, process=False)
    assert other.is_watertight
    assert other.is_winding_consistent
    assert other.volume == pytest.approx(volume_of(surface), rel=1e-9)
    sound = manifold3d.Manifold(manifold3d.Mesh64(surface.points, surface.triangles.astype(np.uint64)))
    assert sound.status() == manifold3d.Error.NoError
    assert sound.volume() == pytest.approx(volume_of(surface), rel=1e-9)


@pytest.mark.parametrize("turn", [0.1, 0.4, 0.7])
def test_a_twisted_room_is_a_prismatoid(turn: float) -> None:
    """Areas of its cuts go by the square of x, so the rule is exact for the ruled surface itself.

    The triangles lie all inside or all outside it by their nature, so they may differ by `off` on all sides.
    """
    low, high = regular(4, 100.0), regular(4, 60.0, turn)
    middle = tuple(
        ((y + far_y) / 2, (z + far_z) / 2) for (y, z), (far_y, far_z) in zip(low, high, strict=True)
    )
    room = lofted([(0.0, low), (300.0, high)])
    expected = prismatoid(300.0, area(low), area(middle), area(high))
    sides = 300.0 * 4.0 * 100.0 * sqrt(2.0)
    assert volume_of(room) == pytest.approx(expected, abs=room.off * sides)
    assert room.off == 0.02
