"""Mass, centre and inertia against worked values from outside.

Figures in metres and kg m2: the sums are the same in any one unit of length.
"""

import pytest

from boxfit.bay import Block
from boxfit.solid.mass_properties import MassProperties, cuboid, inertia_about, together
from boxfit.solid.shapes import block_shape
from boxfit.solid.weighed import solid_properties

SIZE = (0.355, 0.151, 0.108)
OWN = (0.034465, 0.137689, 0.148826)
"""I of a homogeneous cuboid of 12 kg about its centre, m (a^2 + b^2) / 12, worked independently."""


def test_cuboid_about_its_centre() -> None:
    """12 kg, 0.355 x 0.151 x 0.108 m."""
    module = cuboid(12.0, (0.0, 0.0, 0.0), SIZE)
    assert module.inertia[:3] == pytest.approx(OWN, abs=5e-7)
    assert module.inertia[3:] == (0.0, 0.0, 0.0)


def test_cuboid_as_a_solid_integrated_by_the_kernel() -> None:
    """The same block in mm: 1 kg m2 is 1e6 kg mm2."""
    x, y, z = (side * 1000.0 for side in SIZE)
    solid = solid_properties(
        block_shape(Block((100.0, -50.0, 30.0), (100.0 + x, y - 50.0, z + 30.0))), 12.0 / (x * y * z)
    )
    assert solid.mass == pytest.approx(12.0)
    assert [term / 1e6 for term in solid.inertia[:3]] == pytest.approx(OWN, abs=5e-7)
    assert solid.inertia[3:] == pytest.approx((0.0, 0.0, 0.0), abs=1e-6)
    assert solid.centre == pytest.approx((100.0 + x / 2, y / 2 - 50.0, z / 2 + 30.0))


def test_cuboid_about_the_origin() -> None:
    """The same cuboid with its centre at (0.8, -0.2, 0.1): parallel-axis theorem, worked independently.

    Printed there are sum(m x y) -1.92, sum(m x z) 0.96, sum(m y z) -0.24; a tensor holds their opposites.
    """
    low = tuple(middle - side / 2 for middle, side in zip((0.8, -0.2, 0.1), SIZE, strict=True))
    high = tuple(middle + side / 2 for middle, side in zip((0.8, -0.2, 0.1), SIZE, strict=True))
    module = cuboid(12.0, (low[0], low[1], low[2]), (high[0], high[1], high[2]))
    about = inertia_about(module, (0.0, 0.0, 0.0))
    assert about[:3] == pytest.approx((0.634465, 7.937689, 8.308826), abs=5e-7)
    assert about[3:] == pytest.approx((1.92, -0.96, 0.24))


def test_four_point_masses() -> None:
    """2.7, 2.1, 4.5, 2.3 kg at the corners (+-2, +-3) m: 104.4, 46.4, 150.8 kg m2 about the middle.

    A student's exercise on a question-and-answer site (studypool.com, question 1029380); recomputed.
    """
    corners = ((2.0, 3.0, 0.0), (2.0, -3.0, 0.0), (-2.0, -3.0, 0.0), (-2.0, 3.0, 0.0))
    points = [MassProperties(mass, at) for mass, at in zip((2.7, 2.1, 4.5, 2.3), corners, strict=True)]
    about = inertia_about(together(points), (0.0, 0.0, 0.0))
    assert about[:3] == pytest.approx((104.4, 46.4, 150.8))


def test_bar_with_two_balls_about_an_axis_beside_it() -> None:
    """4.00 kg of bar and two balls of 0.300 kg on it, axis parallel to it at 0.500 m: 1.15 kg m2.

    Inputs from a publisher's page on the parallel-axis theorem (pearson.com); the answer was computed.
    """
    bar = MassProperties(4.0, (0.0, 0.0, 0.0))
    balls = [MassProperties(0.3, (0.0, 0.0, end)) for end in (-1.0, 1.0)]
    assert inertia_about(together([bar, *balls]), (0.5, 0.0, 0.0))[2] == pytest.approx(1.15)


def test_disk_with_a_rider() -> None:
    """Disk of 500 kg, radius 2.0 m, a child of 25 kg at 1.0 m: 1025 kg m2 (textbook, from memory)."""
    disk = MassProperties(500.0, (0.0, 0.0, 0.0), (500.0, 500.0, 500.0 * 2.0**2 / 2.0, 0.0, 0.0, 0.0))
    child = MassProperties(25.0, (1.0, 0.0, 0.0))
    about = inertia_about(together([disk, child]), (0.0, 0.0, 0.0))
    assert about[2] == pytest.approx(1025.0)
