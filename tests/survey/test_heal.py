"""Surfaces as they are left by scanners and other programs, made fit to measure from."""

from dataclasses import replace
from itertools import product
from math import pi

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Way
from boxfit.surface import Surface
from boxfit.survey.fault import SurveyError
from boxfit.survey.heal import Healed, check_bay, healed
from tests.survey.scan import Scan, noisy_scan

VOLUME = 800.0 * 600.0 * 400.0
AS_SURVEYED = Scan(pitch=12.0, noise=2.0, holes=6, specks=20, double=0.02, turned=0.03)


def as_surface(mesh: trimesh.Trimesh) -> Surface:
    return Surface(np.array(mesh.vertices, dtype=np.float64), np.array(mesh.faces, dtype=np.int64))


def box(*extents: float, at: tuple[float, float, float] = (0.0, 0.0, 0.0)) -> Surface:
    mesh = trimesh.creation.box(extents=extents)
    mesh.apply_translation(at)
    return as_surface(mesh)


def joined(*surfaces: Surface) -> Surface:
    before = np.cumsum([0, *(len(surface.points) for surface in surfaces)])
    triangles = [each.triangles + count for each, count in zip(surfaces, before[:-1], strict=True)]
    return Surface(np.concatenate([each.points for each in surfaces]), np.concatenate(triangles))


def soup(surface: Surface) -> Surface:
    """The same triangles, none sharing a point, as an .stl has them."""
    return Surface(surface.corners.reshape(-1, 3), np.arange(3 * len(surface.triangles)).reshape(-1, 3))


def room(surface: Surface, way: Way | None = "up", holes: float = 30.0) -> Healed:
    return healed(surface, "room", holes, 20.0, way)


def refused(surface: Surface, way: Way | None = "up") -> SurveyError:
    with pytest.raises(SurveyError) as caught:
        room(surface, way)
    return caught.value


def checked(found: Healed) -> trimesh.Trimesh:
    """The surface as an independent library sees it: closed, all triangles alike, the outside out."""
    mesh = trimesh.Trimesh(found.surface.points, found.surface.triangles, process=False)
    assert mesh.is_watertight
    assert mesh.is_winding_consistent
    assert mesh.volume > 0
    return mesh


def test_a_sound_box_stays_as_it_is() -> None:
    found = room(box(800, 600, 400))
    assert found.told == ()
    assert checked(found).volume == pytest.approx(VOLUME)


def test_a_scan_with_every_fault() -> None:
    found = room(soup(noisy_scan(AS_SURVEYED)))
    assert checked(found).volume == pytest.approx(VOLUME, rel=0.01)
    double, islands, gaps, turned = found.told
    assert double.endswith(" triangles that were there twice left out")
    assert islands.startswith("20 loose islands of up to ")
    assert gaps.startswith("6 gaps of up to ")
    assert "triangles turned to have their outside out" in turned


def test_same_surface_same_bytes() -> None:
    first, second = (room(soup(noisy_scan(AS_SURVEYED))) for _ in range(2))
    assert first.surface.points.tobytes() == second.surface.points.tobytes()
    assert first.surface.triangles.tobytes() == second.surface.triangles.tobytes()
    assert first.told == second.told


def test_an_open_scan_is_closed_at_the_opening_only() -> None:
    scan = noisy_scan(replace(AS_SURVEYED, noise=1.0, open_above=True))
    found = room(scan)
    assert "open at the opening's side, closed there" in found.told
    assert checked(found).volume == pytest.approx(VOLUME, rel=0.01)
    error = refused(scan, "front")
    assert error.key == "file"
    assert error.rule.startswith("has a hole of 80")
    assert "set holes = 81" in error.remedy
    assert "say in [opening] way" in refused(scan, None).remedy


def test_an_opening_of_any_outline_is_closed_flat() -> None:
    outline = ((0.0, 0.0), (800.0, 0.0), (800.0, 300.0), (300.0, 300.0), (300.0, 700.0), (0.0, 700.0))
    found = room(noisy_scan(Scan(outline=outline, open_above=True)))
    mesh = checked(found)
    assert mesh.volume == pytest.approx((800 * 300 + 300 * 400) * 400)
    assert mesh.area == pytest.approx(2 * (800 * 300 + 300 * 400) + 3000 * 400)


def test_an_opening_with_a_ragged_edge() -> None:
    scan = noisy_scan(Scan(open_above=True, pitch=25.0))
    points = scan.points.copy()
    slope = 0.15 * points[:, 0] + 12 * np.sin(points[:, 1])
    points[:, 2] += slope * (points[:, 2] - 200) / 400
    checked(room(Surface(points, scan.triangles)))


@pytest.mark.parametrize(
    ("way", "axis", "sign"),
    [("up", 2, 1), ("down", 2, -1), ("front", 0, 1), ("rear", 0, -1), ("left", 1, 1), ("right", 1, -1)],
)
def test_each_way_in(way: Way, axis: int, sign: int) -> None:
    whole = box(800, 600, 400)
    ends = whole.corners[:, :, axis] * sign
    lid = (ends == ends.max()).all(axis=1)
    found = room(Surface(whole.points, whole.triangles[~lid]), way)
    assert found.told == ("open at the opening's side, closed there",)
    assert checked(found).volume == pytest.approx(VOLUME)


def test_up_to_three_holes_are_named_and_the_rest_counted() -> None:
    scan = noisy_scan(Scan(pitch=40.0, holes=5))
    error = refused(scan, None)
    assert error.rule.count("a hole of ") == 3
    assert error.rule.endswith(" and 2 more")
    assert len(room(scan, holes=90.0).told) == 1


def test_a_pillar_within_counts_against_the_room() -> None:
    pillar = box(100, 100, 300)
    found = room(joined(box(800, 600, 400), pillar))
    mesh = trimesh.Trimesh(found.surface.points, found.surface.triangles, process=False)
    assert mesh.volume == pytest.approx(VOLUME - 100 * 100 * 300)
    inside = joined(box(800, 600, 400), box(300, 300, 300), box(100, 100, 100))
    mesh = trimesh.Trimesh(*_arrays(room(inside)), process=False)
    assert mesh.volume == pytest.approx(VOLUME - 300**3 + 100**3)


def _arrays(found: Healed) -> tuple[np.ndarray, np.ndarray]:
    return found.surface.points, found.surface.triangles


def test_a_surface_inside_out_is_turned() -> None:
    whole = box(800, 600, 400)
    found = room(Surface(whole.points, whole.triangles[:, ::-1]))
    assert found.told == ("12 of 12 triangles turned to have their outside out",)
    checked(found)


@settings(max_examples=25, deadline=None)
@given(st.sets(st.integers(0, 319)))
def test_whichever_triangles_are_turned_the_outside_comes_out(which: set[int]) -> None:
    ball = as_surface(trimesh.creation.icosphere(subdivisions=2, radius=300.0))
    triangles = ball.triangles.copy()
    triangles[sorted(which)] = triangles[sorted(which)][:, ::-1]
    assert checked(room(Surface(ball.points, triangles))).volume == pytest.approx(
        4 / 3 * pi * 300**3, rel=0.05
    )


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10_000), st.floats(0, 3), st.integers(0, 6), st.integers(0, 10), st.booleans())
def test_any_scan_comes_out_closed(seed: int, noise: float, holes: int, specks: int, above: bool) -> None:
    scan = Scan(pitch=30.0, noise=noise, holes=holes, specks=specks, double=0.05, turned=0.1)
    found = healed(soup(noisy_scan(replace(scan, seed=seed, open_above=above))), "room", 61.0, 20.0, "up")
    assert checked(found).volume == pytest.approx(VOLUME, rel=0.03)


def test_sides_that_do_not_meet_corner_to_corner_are_joined() -> None:
    """One side of the box has a point in the middle of an edge that its neighbour lacks."""
    whole = box(800, 600, 400)
    edge = whole.triangles[0][:2]
    middle = whole.points[edge].mean(axis=0)
    a, b, c = whole.triangles[0]
    new = len(whole.points)
    triangles = np.concatenate([whole.triangles[1:], [[a, new, c], [new, b, c]]])
    found = room(Surface(np.concatenate([whole.points, middle[None]]), triangles))
    mesh = trimesh.Trimesh(*_arrays(found), process=False)
    assert mesh.volume == pytest.approx(VOLUME)
    assert found.told[0].startswith("1 gaps of up to ")
    assert found.told[-1].endswith("triangles of no area left out")


def test_points_that_nearly_meet_are_one() -> None:
    scan = noisy_scan(Scan(pitch=50.0))
    chance = np.random.default_rng(3)
    parted = soup(scan)
    points = parted.points + chance.uniform(-1e-4, 1e-4, parted.points.shape)
    checked(room(Surface(points, parted.triangles)))


def test_edges_of_more_than_two_triangles_do_no_harm() -> None:
    """Two boxes side by side, with a wall between them that is there twice."""
    found = room(joined(box(400, 600, 400, at=(-200, 0, 0)), box(400, 600, 400, at=(200, 0, 0))))
    assert found.told == ("4 edges where more than two triangles meet",)
    assert trimesh.Trimesh(*_arrays(found), process=False).volume == pytest.approx(VOLUME)


def test_a_small_flap_is_left_out() -> None:
    scan = noisy_scan(Scan(pitch=10.0))
    a, b, _ = scan.triangles[100]
    points = np.concatenate([scan.points, scan.points[[a]] + 5.0])
    found = room(Surface(points, np.concatenate([scan.triangles, [[a, b, len(scan.points)]]])))
    assert found.told == ("1 triangles that hang loose on an edge left out",)
    checked(found)


def test_a_body_stays_open_and_as_it_winds() -> None:
    whole = box(800, 600, 400)
    triangles = whole.triangles[:-2].copy()
    triangles[0] = triangles[0][::-1]
    found = healed(Surface(whole.points, triangles), "body", 30.0, 20.0, None)
    assert found.told == ()
    assert found.surface.triangles.tolist() == _renamed(triangles, whole, found.surface)


def _renamed(triangles: np.ndarray, before: Surface, after: Surface) -> list[list[int]]:
    places = {tuple(point): number for number, point in enumerate(after.points.tolist())}
    return [[places[tuple(before.points[number].tolist())] for number in row] for row in triangles]


def test_small_gaps_of_a_body_are_bridged() -> None:
    scan = noisy_scan(Scan(pitch=10.0, holes=3, open_above=True))
    found = healed(scan, "body", 30.0, 20.0, None)
    assert len(found.told) == 1
    assert found.told[0].startswith("3 gaps")


@pytest.mark.parametrize(
    ("surface", "key", "rule", "remedy"),
    [
        (box(40_000, 600, 400), "unit", "makes the bay 4e+04 mm long", '"mm" where it is "in" now (1575 mm)'),
        (box(0.8, 0.6, 0.4), "unit", "makes the bay 0.8 mm long", '"m" where it is "mm" now (800 mm)'),
        (box(20, 20, 20), "unit", "makes the bay 20 mm long", '"cm" where it is "mm" now (200 mm)'),
        (box(0, 0, 0), "unit", "makes the bay 0 mm long", "see how large the scan is"),
        (box(800, 600, 0), "file", "encloses no volume", 'reads = "body"'),
        (
            joined(box(800, 600, 400), Surface(box(90, 90, 90).points, box(90, 90, 90).triangles[:-2])),
            "file",
            "has a loose open piece of 90 mm at (",
            "set strays = 90",
        ),
        (
            joined(box(31, 31, 31), *(box(19, 19, 19, at=(40 * k, 0, 0)) for k in range(1, 9))),
            "file",
            "falls apart: 8 pieces of up to 20 mm are 75% of its surface",
            "join (weld, merge) its points",
        ),
    ],
)
def test_what_makes_no_room_is_told(surface: Surface, key: str, rule: str, remedy: str) -> None:
    error = refused(surface)
    assert error.key == key
    assert error.rule.startswith(rule)
    assert remedy in error.remedy


@settings(max_examples=200, deadline=None)
@given(st.data())
def test_any_triangles_end_well(data: st.DataObject) -> None:
    count = data.draw(st.integers(1, 12))
    place = st.sampled_from([0.0, 1.0, 50.0, 400.0, 401.0])
    points = np.array(data.draw(st.lists(st.tuples(place, place, place), min_size=count, max_size=count)))
    corner = st.integers(0, count - 1)
    triangles = np.array(data.draw(st.lists(st.tuples(corner, corner, corner), min_size=1, max_size=30)))
    for reads, way in product(("room", "body"), ("up", None)):
        try:
            found = healed(Surface(points, triangles), reads, 60.0, 20.0, way)  # type: ignore[arg-type]
        except SurveyError:
            continue
        assert np.isfinite(found.surface.points).all()
        assert found.surface.triangles.max(initial=-1) < len(found.surface.points)


def test_a_bay_in_inches_taken_for_millimetres_is_refused() -> None:
    with pytest.raises(SurveyError) as caught:
        check_bay(box(39.4, 22.2, 14.3), "mm")
    assert caught.value.key == "unit"
    assert '"in" where it is "mm" now (1001 mm)' in caught.value.remedy
    assert '"m" where' not in caught.value.remedy
