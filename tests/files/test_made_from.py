"""Results are known by the files they were made from."""

import json
from dataclasses import replace
from pathlib import Path

from boxfit.bay import Shell
from boxfit.files.made_from import MADE_FROM, fingerprint, made_from_bytes, why_not_from
from tests.test_demos import demo


def test_results_belong_to_the_files_they_were_made_from(tmp_path: Path) -> None:
    car, module = demo("dunlin-850", "heron-44")
    assert "no results" in why_not_from(tmp_path, car, module)
    (tmp_path / MADE_FROM).write_bytes(made_from_bytes(car, module))
    assert why_not_from(tmp_path, car, module) == ""
    again, same = demo("dunlin-850", "heron-44")
    assert why_not_from(tmp_path, again, same) == ""


def test_any_other_figure_is_another_file(tmp_path: Path) -> None:
    car, module = demo("dunlin-850", "heron-44")
    (tmp_path / MADE_FROM).write_bytes(made_from_bytes(car, module))
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


def test_a_damaged_note_is_told(tmp_path: Path) -> None:
    car, module = demo("dunlin-850", "heron-44")
    (tmp_path / MADE_FROM).write_text("{", encoding="utf-8")
    assert "damaged" in why_not_from(tmp_path, car, module)
    (tmp_path / MADE_FROM).write_text(json.dumps(["list"]), encoding="utf-8")
    assert "other files" in why_not_from(tmp_path, car, module)
