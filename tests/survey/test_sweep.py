"""Solids that move."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from boxfit.bay import Block, Cylinder, Solid
from boxfit.surface import Outline, Surface
from boxfit.survey.placed import placed
from boxfit.survey.sections import lofted
from boxfit.survey.solids import as_surface
from boxfit.survey.sweep import Motion, swept
from boxfit.survey.volume import volume_of
from tests.survey.sealed import is_one_skin, is_sealed

Points = NDArray[np.float64]

BLOCK = Block((0.0, 0.0, 0.0), (100.0, 200.0, 50.0))
WHEEL = Cylinder((0.0, 700.0, 300.0), (0.0, 900.0, 300.0), 640.0)
ANGLE: Outline = ((0.0, 0.0), (100.0, 0.0), (100.0, 40.0), (40.0, 40.0), (40.0, 100.0), (0.0, 100.0))
ANGLE_IRON = lofted([(0.0, ANGLE), (30.0, ANGLE)])
ANGLE_BLOCKS = (Block((0.0, 0.0, 0.0), (30.0, 100.0, 40.0)), Block((0.0, 0.0, 0.0), (30.0, 40.0, 100.0)))
FINE_ANGLE_IRON = lofted([(x, ANGLE) for x in np.linspace(0.0, 30.0, 120).tolist()])
KINGPIN = ((0.0, 750.0, 0.0), (20.0, 740.0, 600.0))
HINGE = ((150.0, -1.0, 20.0), (150.0, 1.0, 25.0))
BUMP = ((0.0, 0.0, 80.0), (5.0, 10.0, -60.0))


def holds(surface: Surface, point: Points) -> bool:
    """Whether the surface goes round the point: by the solid angles of its triangles.

    Van Oosterom and Strackee, The solid angle of a plane triangle, 1983; from memory.
    """
    one, two, three = (surface.corners[:, k] - point for k in range(3))
    long = [np.linalg.norm(each, axis=1) for each in (one, two, three)]
    above = np.einsum("ij,ij->i", one, np.cross(two, three))
    below = (
        long[0] * long[1] * long[2]
        + np.einsum("ij,ij->i", one, two) * long[2]
        + np.einsum("ij,ij->i", two, three) * long[0]
        + np.einsum("ij,ij->i", three, one) * long[1]
    )
    return float(np.arctan2(above, below).sum() / (2.0 * np.pi)) > 0.5


def moved(point: Points, motion: Motion, leg: float, part: float) -> Points:
    """The place of a point of the solid at some moment of its motion."""
    way = [np.zeros(3), *map(np.array, motion.moves)]
    at = leg * (len(way) - 1)
    low = min(int(at), max(len(way) - 2, 0))
    offset = way[low] + (at - low) * (way[min(low + 1, len(way) - 1)] - way[low])
    if motion.hinge is None:
        return np.asarray(point + offset)
    angle = np.radians(motion.turns[0] + part * (motion.turns[1] - motion.turns[0]))
    start = np.array(motion.hinge[0])
    axis = np.array(motion.hinge[1]) - start
    from scipy.spatial.transform import Rotation

    turn = Rotation.from_rotvec(angle * axis / np.linalg.norm(axis))
    return np.asarray(start + turn.apply(point - start) + offset)


def within(solid: Block | Cylinder, one: float, two: float, three: float) -> Points:
    """A point 0.3 mm or more inside a solid, by three numbers from 0 to 1."""
    if isinstance(solid, Block):
        low, high = np.array(solid.low) + 0.3, np.array(solid.high) - 0.3
        return np.asarray(low + (high - low) * [one, two, three])
    # The wheel above: its axle lies along y.
    x, y, z = solid.start
    radius, angle = (solid.diameter / 2.0 - 0.3) * one, 2.0 * np.pi * two
    return np.array([x + radius * np.cos(angle), y + 0.3 + 199.4 * three, z + radius * np.sin(angle)])


MOTIONS: dict[str, tuple[Solid, tuple[Block | Cylinder, ...], Motion]] = {
    "block up and down": (BLOCK, (BLOCK,), Motion(BUMP)),
    "wheel at lock": (WHEEL, (WHEEL,), Motion((), KINGPIN, (-35.0, 35.0))),
    "wheel at lock and bump": (WHEEL, (WHEEL,), Motion(BUMP, KINGPIN, (35.0, -35.0))),
    "flap": (BLOCK, (BLOCK,), Motion((), HINGE, (-10.0, 70.0))),
    "all the way round": (BLOCK, (BLOCK,), Motion((), HINGE, (0.0, 360.0))),
    "angle iron up and down": (ANGLE_IRON, ANGLE_BLOCKS, Motion(BUMP)),
    "angle iron as a flap": (ANGLE_IRON, ANGLE_BLOCKS, Motion((), HINGE, (0.0, 70.0))),
    "angle iron both": (ANGLE_IRON, ANGLE_BLOCKS, Motion(BUMP, HINGE, (0.0, 30.0))),
    "fine angle iron both": (FINE_ANGLE_IRON, ANGLE_BLOCKS, Motion(BUMP, HINGE, (0.0, 30.0))),
}
SWEPT = {name: swept(solid, motion) for name, (solid, _, motion) in MOTIONS.items()}

part = st.floats(0.0, 1.0)


@pytest.mark.parametrize("name", MOTIONS)
def test_all_that_is_swept_is_closed_and_no_further_off_than_told(name: str) -> None:
    assert is_sealed(SWEPT[name])
    assert SWEPT[name].off <= 0.1
    assert len(SWEPT[name].triangles) < 400_000


@pytest.mark.parametrize("name", MOTIONS)
@settings(max_examples=25)
@given(st.tuples(part, part, part), part, part, st.integers(0, 1))
def test_every_point_of_the_solid_stays_within(
    name: str, place: tuple[float, float, float], leg: float, turned: float, which: int
) -> None:
    _, solids, motion = MOTIONS[name]
    point = within(solids[which % len(solids)], *place)
    assert holds(SWEPT[name], moved(point, motion, leg, turned))


def test_what_does_not_move_stays_as_it_is() -> None:
    assert np.array_equal(swept(BLOCK, Motion()).corners, as_surface(BLOCK).corners)
    assert swept(ANGLE_IRON, Motion(((0.0, 0.0, 0.0),))) is ANGLE_IRON


def test_one_angle_alone_is_a_turn() -> None:
    quarter = swept(BLOCK, Motion((), ((0.0, 0.0, 0.0), (0.0, 0.0, 2.0)), (90.0, 90.0)))
    assert np.allclose(
        quarter.points, placed(as_surface(BLOCK), "mm", (0.0, 0.0, 90.0), (0.0, 0.0, 0.0)).points
    )


move = st.floats(-300.0, 300.0)


@given(st.tuples(move, move, move))
def test_a_block_moved_straight_is_exact(offset: tuple[float, float, float]) -> None:
    """Its volume, and for each face that leads, that face's area times the way."""
    long = swept(BLOCK, Motion((offset,)))
    x, y, z = (abs(value) for value in offset)
    assert volume_of(long) == pytest.approx(1e6 + x * 200 * 50 + y * 100 * 50 + z * 100 * 200, rel=1e-6)
    assert long.off == 0.0
    assert is_one_skin(long)


@settings(max_examples=60)
@given(st.tuples(st.floats(-20.0, 60.0), st.floats(-20.0, 160.0), st.floats(-20.0, 200.0)))
def test_an_angle_iron_moved_straight_is_exact(point: tuple[float, float, float]) -> None:
    """Held against its two blocks, each moved by itself: a union moves as its parts do."""
    motion = Motion(((20.0, 50.0, 90.0),))
    whole = swept(ANGLE_IRON, motion)
    at = np.array(point) + 1e-4
    assert holds(whole, at) == any(holds(swept(block, motion), at) for block in ANGLE_BLOCKS)
    assert whole.off == 0.0


def test_a_mesh_of_very_many_triangles_moved_straight() -> None:
    """In patches: larger, never smaller, and not by much."""
    long = lofted([(x, ANGLE) for x in np.linspace(0.0, 30.0, 2200).tolist()])
    many = swept(long, Motion(((0.0, 0.0, 80.0),)))
    assert len(long.triangles) > 25_000
    assert many.off == 0.0
    assert is_sealed(many)
    assert np.allclose((many.low, many.high), ((0.0, 0.0, 0.0), (30.0, 100.0, 180.0)), atol=1e-6)


def test_a_plate_on_a_hinge_reaches_its_arc_and_little_inwards() -> None:
    plate = Block((-500.0, 1000.0, 0.0), (500.0, 1010.0, 300.0))
    arc = swept(plate, Motion((), ((0.0, 0.0, 0.0), (0.0, 0.0, 1.0)), (0.0, 80.0)))
    radii = np.linalg.norm(arc.points[:, :2], axis=1)
    assert radii.max() == pytest.approx(np.hypot(500.0, 1010.0))
    middles = (arc.corners[:, [0, 1, 2]] + arc.corners[:, [1, 2, 0]]) / 2.0
    assert np.linalg.norm(middles[:, :, :2], axis=2).min() >= 1000.0 - 2.0


@given(st.floats(0.5, 400.0), st.tuples(move, move, move))
def test_a_bar_is_never_smaller_and_hardly_larger(diameter: float, end: tuple[float, float, float]) -> None:
    axis = np.add(end, (0.0, 0.0, 500.0))
    x, y, z = axis.tolist()
    bar = as_surface(Cylinder((0.0, 0.0, 0.0), (x, y, z), diameter))
    axis /= np.linalg.norm(axis)
    away = np.linalg.norm(np.cross(bar.points, axis), axis=1)
    assert away.max() <= diameter / 2.0 + 0.05 + 1e-9
    sides = bar.corners[np.abs(np.ptp(bar.corners @ axis, axis=1)) > 1e-6]
    normals = np.cross(sides[:, 1] - sides[:, 0], sides[:, 2] - sides[:, 0])
    planes = np.einsum("ij,ij->i", normals, sides[:, 0]) / np.linalg.norm(normals, axis=1)
    assert planes == pytest.approx(diameter / 2.0)
    assert is_one_skin(bar)
