"""What stays in a bay: scanned, moving, turning. Expected values: by hand from samples.py."""

from pathlib import Path

import pytest

from boxfit.bay import Block, Keepout, Prism, Surface
from boxfit.files.car import read_car
from boxfit.files.problems import InputError
from tests.files.samples import MESH, MOTOR_HIGH, MOTOR_LOW, read_surveyed, spans, write_surveyed
from tests.samples import CAR_FILES, changed


def keepouts(root: Path, *changes: tuple[str, str]) -> tuple[Keepout, ...]:
    return read_surveyed(root, "mesh.toml", *changes).bays[0].keepouts


def test_a_scanned_keepout(tmp_path: Path) -> None:
    motor = keepouts(tmp_path)[0]
    assert (motor.name, motor.distance, motor.reason, motor.negotiable) == ("wiper motor", 18.0, "hot", False)
    assert isinstance(motor.solid, Surface)
    assert spans(motor.solid, MOTOR_LOW, MOTOR_HIGH)


def test_a_keepout_that_moves_keeps_clear_all_it_passes(tmp_path: Path) -> None:
    hinge = keepouts(tmp_path)[1]
    assert (hinge.reason, hinge.distance) == ("moving", 13.0)
    assert isinstance(hinge.solid, Surface)
    assert spans(hinge.solid, (-400.0, 200.0, 440.0), (-300.0, 220.0, 600.0))


def test_a_keepout_that_turns(tmp_path: Path) -> None:
    """About an axis along y through its lower rear edge, from lying to standing: right-handed, x to -z."""
    moves = "moves = [[0.0, 0.0, -60.0], [0.0, 0.0, 80.0]]"
    turns = "turns = { hinge = [[-400.0, 0.0, 500.0], [-400.0, 1.0, 500.0]], by = [-90.0, 0.0] }"
    hinge = keepouts(tmp_path, (moves, turns))[1]
    assert isinstance(hinge.solid, Surface)
    reach = (100.0**2 + 20.0**2) ** 0.5
    low, high = (-420.0, 200.0, 500.0), (-300.0, 220.0, 500.0 + reach)
    off = hinge.solid.off + 0.5
    assert hinge.solid.low == pytest.approx(low, abs=off)
    assert hinge.solid.high == pytest.approx(high, abs=off)


def test_a_bar_that_turns(tmp_path: Path) -> None:
    """A quarter turn about its end, right-handed about the upward axis: from the left to the rear."""
    (arm,) = read_surveyed(tmp_path, "sections.toml").bays[0].keepouts
    assert (arm.name, arm.reason, arm.distance) == ("wiper arm", "moving", 13.0)
    assert isinstance(arm.solid, Surface)
    off = arm.solid.off + 1.1
    assert arm.solid.low == pytest.approx((-400.0, -10.0, 590.0), abs=off)
    assert arm.solid.high == pytest.approx((-290.0, 100.0, 610.0), abs=off)


def test_a_scanned_keepout_in_a_bay_that_is_none(tmp_path: Path) -> None:
    """The rear bay is a block."""
    motor = '\n[[keepout]]\nname = "motor"\nkind = "mesh"\nfile = "motor.stl"\nunit = "mm"\n'
    text = changed(CAR_FILES["rear.toml"], "\n[box]", f"{motor}\n[box]")
    (bay,) = read_car(write_surveyed(tmp_path, "rear.toml", {"rear.toml": text})).bays
    assert isinstance(bay.room, Prism)
    assert isinstance(bay.keepouts[1].solid, Surface)
    assert spans(bay.keepouts[1].solid, MOTOR_LOW, MOTOR_HIGH)
    assert bay.keepouts[1].distance == 16.0


def test_a_reason_given_is_kept_and_without_a_sweep_nothing_is_swept(tmp_path: Path) -> None:
    moves = "moves = [[0.0, 0.0, -60.0], [0.0, 0.0, 80.0]]"
    still = keepouts(tmp_path / "still", (moves, ""))[1]
    assert (still.reason, still.solid) == ("", Block((-400.0, 200.0, 500.0), (-300.0, 220.0, 520.0)))
    assert keepouts(tmp_path / "told", (moves, f'{moves}\nreason = "hot"'))[1].reason == "hot"


def test_a_scanned_keepout_that_does_not_close_is_refused(tmp_path: Path) -> None:
    import trimesh

    folder = write_surveyed(tmp_path, "mesh.toml", {"mesh.toml": MESH})
    motor = trimesh.creation.box(bounds=[MOTOR_LOW, MOTOR_HIGH])
    motor.update_faces(motor.face_normals[:, 2] < 0.5)
    motor.export(folder / "motor.stl")
    with pytest.raises(InputError) as told:
        read_car(folder)
    assert [problem.key for problem in told.value.problems] == ["keepout[1].file"]
