"""A healed surface as a room."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Opening
from boxfit.surface import Surface
from boxfit.survey.fault import SurveyError
from boxfit.survey.shell import shell_of
from boxfit.survey.volume import volume_of
from tests.survey.tubs import block, noisy, tub

places = st.integers(-500, 500).map(lambda tenths: tenths / 10)
LOW, HIGH = (200.0, -200.0, 400.0), (600.0, 200.0, 700.0)


@given(st.lists(st.tuples(places, places, places), min_size=8, max_size=20, unique=True))
@settings(max_examples=40, deadline=None)
def test_the_volume_is_that_of_another_sum(corners: list[tuple[float, float, float]]) -> None:
    import trimesh

    spread = [*corners, (-60.0, -60.0, -60.0), (60.0, -60.0, 0.0), (0.0, 60.0, 0.0), (0.0, 0.0, 60.0)]
    hull = trimesh.PointCloud(spread).convex_hull  # type: ignore[no-untyped-call]
    far = Surface(np.add(hull.vertices, (4000.0, -700.0, 300.0)), np.array(hull.faces))
    assert volume_of(far) == pytest.approx(hull.volume, rel=1e-9)


def test_a_pillar_wound_inward_is_taken_off() -> None:
    room, pillar = block((0, 0, 0), (100, 100, 100)), block((40, 40, 0), (50, 60, 100))
    points = np.concatenate([room.points, pillar.points])
    triangles = np.concatenate([room.triangles, pillar.triangles[:, ::-1] + len(room.points)])
    assert volume_of(Surface(points, triangles)) == pytest.approx(1e6 - 10 * 20 * 100)


def test_a_room_is_taken_as_it_is() -> None:
    surface = block(LOW, HIGH, 50.0)
    shell = shell_of(surface, "room", Opening("left"), 3.0, (), ("bridged a gap",))
    assert (shell.surface, shell.reads, shell.low, shell.high) == (surface, "room", LOW, HIGH)
    assert shell.volume == pytest.approx(400 * 400 * 300)
    assert shell.told == ("bridged a gap",)
    assert (shell.opens == (surface.corners[:, :, 1] == 200.0).all(axis=1)).all()
    assert shell.plan == (((200.0, -200.0), (600.0, -200.0), (600.0, 200.0), (200.0, 200.0)),)
    assert shell.side == (((200.0, 400.0), (600.0, 400.0), (600.0, 700.0), (200.0, 700.0)),)
    assert shell.rear == (((-200.0, 400.0), (200.0, 400.0), (200.0, 700.0), (-200.0, 700.0)),)


def test_a_room_without_an_opening_has_no_open_side() -> None:
    shell = shell_of(block(LOW, HIGH, 50.0), "room", None, 3.0, (), ())
    assert not shell.opens.any()


def test_a_body_without_an_opening_cannot_be_taken() -> None:
    with pytest.raises(SurveyError) as caught:
        shell_of(tub(LOW, HIGH), "body", None, 3.0, (), ())
    assert caught.value.key == "reads"
    assert caught.value.rule == "a body needs an [opening]: the room is what can be reached from it"


@pytest.mark.parametrize("noise", [0.0, 2.0])
def test_a_body_is_what_can_be_reached(noise: float) -> None:
    surface = noisy(tub(LOW, HIGH), noise)
    shell = shell_of(surface, "body", Opening("up"), 3.0, (), ())
    assert (shell.low, shell.high) == (surface.low, surface.high)
    assert shell.volume == pytest.approx(400 * 400 * 300, rel=0.01 if noise == 0.0 else 0.04)
    assert not shell.opens.any()
    for outlines, (a, b) in ((shell.plan, (0, 1)), (shell.side, (0, 2)), (shell.rear, (1, 2))):
        shown = shapely.Polygon(outlines[0])
        assert len(outlines) == 1
        assert shown.covers(shapely.box(LOW[a] + 3, LOW[b] + 3, HIGH[a] - 3, HIGH[b] - 3))
        assert shown.bounds == pytest.approx((LOW[a], LOW[b], HIGH[a], HIGH[b]), abs=2.5)


def test_what_stays_in_the_bay_is_no_room() -> None:
    tank = block((200.0, -200.0, 400.0), (300.0, 200.0, 700.0), 20.0)
    shell = shell_of(tub(LOW, HIGH), "body", Opening("up"), 3.0, (tank,), ())
    assert shell.volume == pytest.approx(300 * 400 * 300, rel=0.02)
    assert shell.plan[0][0][0] == pytest.approx(300.0, abs=10.0)
