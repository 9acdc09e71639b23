"""Bays read from sections, scans and solids. Expected values: by hand from samples.py."""

from pathlib import Path

import pytest

from boxfit.bay import Shell, Surface, Vector
from boxfit.car import Car
from boxfit.files.car import read_car
from boxfit.files.problems import InputError
from boxfit.survey import mesh_file
from tests.files.samples import (
    HIGH,
    LOW,
    MESH,
    SURVEYS,
    VOLUME,
    read_surveyed,
    spans,
    write_block,
    write_surveyed,
)
from tests.samples import changed


def room_of(car: Car) -> Shell:
    (bay,) = car.bays
    assert isinstance(bay.room, Shell)
    return bay.room


def is_the_sample(room: Shell) -> bool:
    return room.reads == "room" and spans(room, LOW, HIGH) and room.volume == pytest.approx(VOLUME, rel=1e-6)


@pytest.mark.parametrize("bay", sorted(SURVEYS))
def test_the_same_room_from_each_kind(bay: str, tmp_path: Path) -> None:
    car = read_surveyed(tmp_path, bay)
    assert is_the_sample(room_of(car))
    assert (car.bays[0].tolerance, car.bays[0].distance) == (3.0, 13.0)


@pytest.mark.parametrize("ending", ["stl", "ply", "obj", "3mf"])
def test_the_same_room_from_each_form_of_file(ending: str, tmp_path: Path) -> None:
    text = changed(MESH, "scan.stl", f"scan.{ending}")
    folder = write_surveyed(tmp_path, "mesh.toml", {"mesh.toml": text})
    write_block(folder / f"scan.{ending}")
    assert is_the_sample(room_of(read_car(folder)))


def test_sections_may_rise_or_fall_and_walk_round_either_way(tmp_path: Path) -> None:
    rising = (("at = 250.0", "at = -600.0"), ("at = -420.0", "at = 250.0"), ("at = 0.0", "at = -420.0"))
    outline = "[[-340.0, 260.0], [340.0, 260.0], [340.0, 640.0], [-340.0, 640.0]]"
    turned = "[[-340.0, 260.0], [-340.0, 640.0], [340.0, 640.0], [340.0, 260.0]]"
    room = room_of(read_surveyed(tmp_path, "sections.toml", *rising, (outline, turned)))
    assert spans(room, (-600.0, -340.0, 260.0), HIGH)
    assert room.volume == pytest.approx(850.0 * 680.0 * 380.0)


def scaled(place: Vector, by: float) -> Vector:
    x, y, z = place
    return (x * by, y * by, z * by)


@pytest.mark.parametrize(("unit", "millimetres"), [("cm", 10.0), ("m", 1000.0), ("in", 25.4)])
def test_a_scan_in_another_unit(unit: str, millimetres: float, tmp_path: Path) -> None:
    text = changed(MESH, 'unit = "mm"', f'unit = "{unit}"')
    folder = write_surveyed(tmp_path, "mesh.toml", {"mesh.toml": text})
    write_block(folder / "scan.stl", scaled(LOW, 1.0 / millimetres), scaled(HIGH, 1.0 / millimetres))
    assert is_the_sample(room_of(read_car(folder)))


def test_a_unit_that_the_file_itself_contradicts_is_refused(tmp_path: Path) -> None:
    text = changed(changed(MESH, "scan.stl", "scan.3mf"), 'unit = "mm"', 'unit = "in"')
    folder = write_surveyed(tmp_path, "mesh.toml", {"mesh.toml": text})
    write_block(folder / "scan.3mf")
    with pytest.raises(InputError) as told:
        read_car(folder)
    assert str(told.value).split("\n") == [
        'mesh.toml: survey.unit: must agree with "mm", the unit stated in scan.3mf itself (got "in")',
        '  try: write unit = "mm"',
    ]


@pytest.mark.parametrize(("unit", "by"), [("m", 1.0), ("mm", 0.001)])
def test_a_unit_that_makes_no_bay_is_refused(unit: str, by: float, tmp_path: Path) -> None:
    """Millimetres taken for metres lie beyond any car; metres taken for millimetres are a speck."""
    text = changed(MESH, 'unit = "mm"', f'unit = "{unit}"')
    folder = write_surveyed(tmp_path, "mesh.toml", {"mesh.toml": text})
    write_block(folder / "scan.stl", scaled(LOW, by), scaled(HIGH, by))
    with pytest.raises(InputError) as told:
        read_car(folder)
    assert [problem.key for problem in told.value.problems] == ["survey.unit"]


def test_a_scan_is_turned_and_then_moved(tmp_path: Path) -> None:
    """A quarter turn about z takes x to y and y to -x."""
    placing = (
        ("move = [0.0, 0.0, 0.0]", "move = [250.0, -340.0, 260.0]"),
        ("turn = [0.0, 0.0, 0.0]", "turn = [0.0, 0.0, 90.0]"),
    )
    text = MESH
    for old, new in placing:
        text = changed(text, old, new)
    folder = write_surveyed(tmp_path, "mesh.toml", {"mesh.toml": text})
    write_block(folder / "scan.stl", (0.0, 0.0, 0.0), (680.0, 670.0, 380.0))
    assert is_the_sample(room_of(read_car(folder)))


def test_the_proof_by_the_tape_is_told(tmp_path: Path) -> None:
    proof = "the distance taped as 680.0 mm measures 680.0 mm on the survey"
    assert proof in room_of(read_surveyed(tmp_path, "mesh.toml")).told


@pytest.mark.parametrize("bay", ["mesh.toml", "sections.toml"])
def test_a_survey_that_the_tape_contradicts_is_refused_with_the_figure(bay: str, tmp_path: Path) -> None:
    with pytest.raises(InputError) as told:
        read_surveyed(tmp_path, bay, ("taped = 680.0", "taped = 700.0"))
    (problem,) = told.value.problems
    assert (problem.file, problem.key) == (bay, "survey.reference")
    assert "680" in f"{problem.rule} {problem.got}"
    assert "700" in f"{problem.rule} {problem.got}"


def test_a_scan_as_the_metal_round_the_room(tmp_path: Path) -> None:
    """A tray, open at the top; the room ends at the block round the scan."""
    import trimesh

    folder = write_surveyed(
        tmp_path, "mesh.toml", {"mesh.toml": changed(MESH, 'reads = "room"', 'reads = "body"')}
    )
    tray = trimesh.creation.box(bounds=[LOW, HIGH])
    tray.update_faces(tray.face_normals[:, 2] < 0.5)
    tray.export(folder / "scan.stl")
    room = room_of(read_car(folder))
    assert room.reads == "body"
    assert room.volume > 0.5 * VOLUME


def test_problems_of_the_survey_and_of_every_keepout_come_at_once(tmp_path: Path) -> None:
    folder = write_surveyed(tmp_path, "mesh.toml", {"mesh.toml": MESH})
    for name in ("scan.stl", "motor.stl"):
        (folder / name).write_bytes(b"no scan")
    with pytest.raises(InputError) as told:
        read_car(folder)
    assert [problem.key for problem in told.value.problems] == ["keepout[1].file", "survey.file"]


def test_a_scan_is_read_once_and_only_when_the_file_is_right(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []
    really_read = mesh_file.read_mesh

    def read(path: Path) -> Surface:
        asked.append(path.name)
        return really_read(path)

    monkeypatch.setattr(mesh_file, "read_mesh", read)
    again = '\n[[keepout]]\nname = "other motor"\nkind = "mesh"\nfile = "motor.stl"\nunit = "mm"\n'
    folder = write_surveyed(tmp_path / "right", "mesh.toml", {"mesh.toml": MESH + again})
    assert len(read_car(folder).bays[0].keepouts) == 3
    assert sorted(asked) == ["motor.stl", "scan.stl"]
    asked.clear()
    with pytest.raises(InputError):
        read_surveyed(tmp_path / "wrong", "mesh.toml", ('way = "up"', 'way = "upp"'))
    assert asked == []
