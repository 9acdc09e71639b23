"""Results are known by the files they were made from."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from boxfit.bay import Shell
from boxfit.car import Car
from boxfit.files.made_from import fingerprint, why_not_from
from boxfit.files.record import BUILD, LAYOUT, MADE_FROM, Origin, record_bytes, record_of
from boxfit.module import Module
from tests.test_demos import demo


def write_record(folder: Path, car: Car, module: Module, command: str = BUILD) -> None:
    """The record of a layout.json written by the command."""
    record = record_of(command, Origin(fingerprint(car, module)), [("layout.json", b"{}")])
    (folder / MADE_FROM).write_bytes(record_bytes({}, record))


def test_results_belong_to_the_files_they_were_made_from(tmp_path: Path) -> None:
    car, module = demo("dunlin-850", "heron-44")
    assert "no results" in why_not_from(tmp_path, car, module)
    write_record(tmp_path, car, module)
    assert why_not_from(tmp_path, car, module) == ""
    again, same = demo("dunlin-850", "heron-44")
    assert why_not_from(tmp_path, again, same) == ""


def test_any_other_figure_is_another_file(tmp_path: Path) -> None:
    car, module = demo("dunlin-850", "heron-44")
    write_record(tmp_path, car, module)
    front, rear = car.bays
    others = (
        (replace(car, wheelbase=car.wheelbase + 0.1), module),
        (replace(car, bays=(replace(front, tolerance=front.tolerance + 0.1), rear)), module),
        (car, replace(module, mass=module.mass + 0.01)),
        (replace(car, carried=car.carried[1:]), module),
    )
    for other, its in others:
        assert "other files" in why_not_from(tmp_path, other, its)


def test_points_of_a_scan_count() -> None:
    car, module = demo("dunlin-850-scan", "heron-44")
    front, rear = car.bays
    assert isinstance(front.room, Shell)
    surface = front.room.surface
    moved = replace(surface, points=surface.points + 0.001)
    other = replace(front, room=replace(front.room, surface=moved))
    assert fingerprint(replace(car, bays=(other, rear)), module) != fingerprint(car, module)


def test_a_layout_alone_is_no_build(tmp_path: Path) -> None:
    car, module = demo("dunlin-850", "heron-44")
    write_record(tmp_path, car, module, LAYOUT)
    assert "no results of boxfit build" in why_not_from(tmp_path, car, module)


def test_an_older_record_serves_still(tmp_path: Path) -> None:
    """It told one number for all."""
    car, module = demo("dunlin-850", "heron-44")
    told = {"car": car.name, "module": module.name, "files": fingerprint(car, module)}
    (tmp_path / MADE_FROM).write_text(json.dumps(told), encoding="utf-8")
    assert why_not_from(tmp_path, car, module) == ""
    assert "other files" in why_not_from(tmp_path, replace(car, wheelbase=2000.0), module)


@pytest.mark.parametrize(
    "text", ["{", "[]", '{"files": 3}', '{"written": {"build": {"files": "x"}}}', "[" * 9999]
)
def test_a_damaged_record_tells_nothing(text: str, tmp_path: Path) -> None:
    car, module = demo("dunlin-850", "heron-44")
    (tmp_path / MADE_FROM).write_text(text, encoding="utf-8")
    assert "other files" in why_not_from(tmp_path, car, module)
