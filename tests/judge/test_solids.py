"""Parts written, spoiled and read back."""

import json
from pathlib import Path

import cadquery
import pytest
import trimesh

from boxfit.judge.finding import CODES, Finding
from boxfit.judge.solids import judge_solids

Solid = cadquery.Solid


def write(folder: Path, shape: cadquery.Shape, stem: str = "tray") -> None:
    for ending in ("step", "stl"):
        cadquery.exporters.export(cadquery.Workplane(obj=shape), str(folder / f"{stem}.{ending}"))


def spoil_mesh(folder: Path, faces: slice, scale: float = 1.0, turned: slice = slice(0)) -> None:
    """Write the mesh of the part again with some of its faces, larger, and some of them turned round."""
    mesh = trimesh.load_mesh(str(folder / "tray.stl"))
    chosen = mesh.faces[faces].copy()
    chosen[turned] = chosen[turned][:, ::-1]
    trimesh.Trimesh(mesh.vertices * scale, chosen, process=False).export(str(folder / "tray.stl"))


def codes(findings: tuple[Finding, ...]) -> list[str]:
    assert {finding.code for finding in findings} <= set(CODES)
    return [finding.code for finding in findings]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A tray with a hole in its bottom, in both files."""
    tray = Solid.makeBox(60.0, 40.0, 30.0).cut(Solid.makeBox(50.0, 30.0, 30.0, pnt=(5.0, 5.0, 5.0)))
    write(tmp_path, tray.cut(Solid.makeCylinder(5.0, 5.0, pnt=(30.0, 20.0, 0.0))).Solids()[0])
    return tmp_path


def test_sound_part_is_clear(folder: Path) -> None:
    assert judge_solids(folder) == ()


def test_bodies_that_touch_are_clear(tmp_path: Path) -> None:
    sheets = [Solid.makeBox(10.0, 10.0, 3.0), Solid.makeBox(3.0, 10.0, 9.0, pnt=(0.0, 0.0, 3.0))]
    write(tmp_path, cadquery.Compound.makeCompound(sheets))
    assert judge_solids(tmp_path) == ()


def test_mesh_alone_and_empty_folder_are_not_judged(tmp_path: Path) -> None:
    (tmp_path / "gauge.stl").write_text("nothing")
    assert judge_solids(tmp_path) == ()


def test_open_mesh(folder: Path) -> None:
    spoil_mesh(folder, slice(1, None))
    findings = judge_solids(folder)
    assert codes(findings)[0] == "solid-open"
    assert findings[0].figure == 3.0  # hand: one triangle gone leaves its three edges open


def test_one_triangle_turned_round(folder: Path) -> None:
    spoil_mesh(folder, slice(None), turned=slice(1))
    assert "solid-wound" in codes(judge_solids(folder))


def test_all_turned_inside_out(folder: Path) -> None:
    spoil_mesh(folder, slice(None), turned=slice(None))
    findings = judge_solids(folder)
    assert codes(findings) == ["solid-wound"]
    assert findings[0].figure is not None
    assert findings[0].figure < 0.0


@pytest.mark.parametrize(("scale", "expected"), [(1.001, []), (1.002, ["solid-volume"])])
def test_volumes_may_differ_by_half_a_percent(folder: Path, scale: float, expected: list[str]) -> None:
    # hand: 1.001 cubed is 0.3 % more, 1.002 cubed 0.6 %
    spoil_mesh(folder, slice(None), scale=scale)
    assert codes(judge_solids(folder)) == expected


def test_shell_is_no_solid(folder: Path) -> None:
    shell = Solid.makeBox(1.0, 1.0, 1.0).Shells()[0]
    cadquery.exporters.export(cadquery.Workplane(obj=shell), str(folder / "tray.step"))
    assert codes(judge_solids(folder)) == ["solid-invalid"]


@pytest.mark.parametrize("name", ["tray.step", "tray.stl", "mass.json"])
def test_file_that_cannot_be_read(folder: Path, name: str) -> None:
    (folder / name).write_text("neither this nor that\n")
    assert codes(judge_solids(folder)) == ["solid-invalid"]


@pytest.mark.parametrize(
    ("mass", "mesh", "expected"),
    [
        (2.0, 2.0, []),
        (2.0, 1.991, []),
        (2.0, 1.98, ["solid-mass"]),
        (2.02, 2.0, ["solid-mass"]),
        (2.0, -2.0, ["solid-mass"]),
        (2.0, "2.0", ["solid-mass"]),
        (None, 2.0, ["solid-mass"]),
    ],
)
def test_masses_agree(tmp_path: Path, mass: object, mesh: object, expected: list[str]) -> None:
    part = {"name": "tray", "mass": mass, "by": {"closed_form": 2.0, "solid": 2.0, "mesh": mesh}}
    (tmp_path / "mass.json").write_text(json.dumps({"boxes": [{"parts": [part]}], "unit": "kg"}))
    assert codes(judge_solids(tmp_path)) == expected


@pytest.mark.parametrize(("mass", "expected"), [(0.0907, []), (0.092, ["solid-mass"])])
def test_mass_is_that_of_the_file(folder: Path, mass: float, expected: list[str]) -> None:
    # hand: 60 x 40 x 30 less 50 x 30 x 25 less a hole 10 across through 5 mm, at 2660 kg/m3: 0.09072 kg
    part = {"name": "Tray", "material": "aluminium-5754", "mass": mass, "by": {"solid": mass}}
    (folder / "mass.json").write_text(json.dumps([part]))
    assert codes(judge_solids(folder)) == expected


def test_mass_not_reckoned_one_way_is_no_fault(tmp_path: Path) -> None:
    part = {"name": "tray", "mass": 2.0, "by": {"closed_form": None, "solid": 2.0, "mesh": 2.0}}
    (tmp_path / "mass.json").write_text(json.dumps([part]))
    assert judge_solids(tmp_path) == ()
