"""What is said of a bare scan, and the bay file it gives to start from."""

import tomllib
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from boxfit.surface import Surface
from boxfit.survey.fault import SurveyError
from boxfit.survey.suggest import suggested
from tests.survey.scan import Scan, noisy_scan, save_stl
from tests.survey.test_mesh_file import THREEMF, mesh_object, threemf

OPEN = noisy_scan(Scan(noise=1.0, holes=2, specks=4, open_above=True))


def start_file(text: str) -> dict[str, Any]:
    """The bay file within the answer: all after the first empty line."""
    return tomllib.loads(text.split("\n\n", 1)[1])


def turned(points: np.ndarray, degrees: list[float]) -> np.ndarray:
    """Points turned about x, then y, then z."""
    for axis, angle in enumerate(np.radians(degrees)):
        one, other = [(1, 2), (2, 0), (0, 1)][axis]
        found = points.copy()
        found[:, one] = np.cos(angle) * points[:, one] - np.sin(angle) * points[:, other]
        found[:, other] = np.sin(angle) * points[:, one] + np.cos(angle) * points[:, other]
        points = found
    return points


@pytest.mark.parametrize("axis", [0, 1, 2])
@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_the_turn_brings_the_open_side_up(tmp_path: Path, axis: int, sign: float) -> None:
    points = np.roll(OPEN.points, axis - 2, axis=1)
    points[:, axis] *= sign
    path = save_stl(Surface(points, OPEN.triangles), tmp_path / "scan.stl")
    text = suggested(path)
    assert f"up: {'+' if sign > 0 else '-'}{'xyz'[axis]} of the file" in text
    assert "fairly sure" in text
    turn = start_file(text)["survey"]["turn"]
    upright = turned(points, turn)
    # The scan has points inside its top only at the rim, but all over its floor.
    middle = upright[np.abs(upright[:, :2] - upright[:, :2].mean(axis=0)).max(axis=1) < 200]
    assert middle[:, 2].mean() < upright[:, 2].mean()


@pytest.mark.parametrize(
    ("scale", "unit", "others"),
    [
        (1.0, "mm", []),
        (0.1, "cm", ["in"]),
        (0.001, "m", []),
        (1 / 25.4, "in", ["cm"]),
        (1e-7, "m", []),
        (1e5, "mm", []),
    ],
)
def test_units_by_the_size_of_bays(tmp_path: Path, scale: float, unit: str, others: list[str]) -> None:
    path = save_stl(Surface(OPEN.points * scale, OPEN.triangles), tmp_path / "scan.stl")
    text = suggested(path)
    assert start_file(text)["survey"]["unit"] == unit
    assert [line.split('"')[1] for line in text.splitlines() if line.startswith("#       or ")] == others
    assert ("hardly" in text) == (scale in {1e-7, 1e5})


def test_what_is_in_the_file_is_told(tmp_path: Path) -> None:
    text = suggested(save_stl(OPEN, tmp_path / "scan.stl"))
    first, extents, *_ = text.splitlines()
    assert first.startswith(
        f'# "scan.stl": {len(OPEN.triangles)} triangles, 1 part and 4 specks, open: 3 gaps, '
    )
    assert extents.startswith("# extents in the file: x -40")


def test_a_closed_scan_is_a_guess(tmp_path: Path) -> None:
    text = suggested(save_stl(noisy_scan(Scan()), tmp_path / "scan.stl"))
    assert "1 part, closed" in text
    assert (
        "up: +z of the file (it is closed, and most of its flat area lies across that axis; a guess)" in text
    )


def test_the_unit_a_file_states_wins(tmp_path: Path) -> None:
    path = tmp_path / "scan.3mf"
    path.write_bytes(THREEMF)
    assert 'unit: "mm" (the file states it)' in suggested(path)
    path.write_bytes(threemf(mesh_object(1), '<item objectid="1"/>', ' unit="inch"'))
    assert 'unit: "in" (the file states it, though 2.032e+04 mm is hardly' in suggested(path)
    path.write_bytes(threemf(mesh_object(1), '<item objectid="1"/>', ' unit="foot"'))
    assert 'the file states "foot", which a bay file cannot' in suggested(path)


@pytest.mark.parametrize("stem", ['front "left"', "Stoßstange hinten", "a\\b", "a'b", "tab\there", "\x7f"])
def test_any_name_makes_a_sound_bay_file(tmp_path: Path, stem: str) -> None:
    path = save_stl(OPEN, tmp_path / f"{stem}.stl")
    said = start_file(suggested(path))
    assert said["name"] == stem
    assert said["survey"]["file"] == f"{stem}.stl"
    assert said["opening"] == {"way": "up"}
    assert set(said["survey"]) == {"kind", "tolerance", "file", "unit", "turn", "move", "reads"}


def test_what_cannot_be_read_is_told(tmp_path: Path) -> None:
    with pytest.raises(SurveyError, match="does not exist"):
        suggested(tmp_path / "scan.stl")
    point = Surface(np.zeros((3, 3)), np.array([[0, 1, 2]]))
    with pytest.raises(SurveyError, match="only triangles of no area"):
        suggested(save_stl(point, tmp_path / "scan.stl"))
