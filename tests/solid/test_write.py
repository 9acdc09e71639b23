"""All files of a layout: there, closed, right in size, and the same bytes from any process."""

import csv
import json
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from boxfit.box.whole import built_boxes
from boxfit.solid.write import SolidReport, write_solids
from tests.box.samples import HERON, RULES, car_and_layout

AGAIN = """
import sys
from pathlib import Path
from boxfit.box.whole import built_boxes
from boxfit.solid.write import write_solids
from tests.box.samples import HERON, car_and_layout
car, layout = car_and_layout()
write_solids(car, HERON, layout, built_boxes(car, HERON, layout), Path(sys.argv[1]))
"""


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, SolidReport]:
    """The files of the sample car, and the report on them."""
    folder = tmp_path_factory.mktemp("solids")
    car, layout = car_and_layout()
    return folder, write_solids(car, HERON, layout, built_boxes(car, HERON, layout), folder)


def test_files_are_those_told(written: tuple[Path, SolidReport]) -> None:
    """By name; what is left out is told."""
    folder, report = written
    assert sorted(path.name for path in folder.iterdir()) == sorted(report.files)
    assert "front-bay-box-1-tray.step" in report.files
    assert "front-bay-box-1-cover-plate.stl" in report.files
    assert "rear-bay-box-1-cover-plate.stl" not in report.files
    assert [note for note in report.notes if "cover plate" in note] == [
        "rear bay box 1: cover plate left out: 9.2 mm too little above the lid"
    ]


def test_same_bytes_from_another_process(written: tuple[Path, SolidReport], tmp_path: Path) -> None:
    """With other hashes and other addresses in memory."""
    folder, report = written
    subprocess.run([sys.executable, "-c", AGAIN, str(tmp_path)], check=True, env={"PYTHONHASHSEED": "77"})
    for name in report.files:
        assert (folder / name).read_bytes() == (tmp_path / name).read_bytes(), name


def test_stl_is_closed_and_says_its_unit(written: tuple[Path, SolidReport]) -> None:
    """As two independent readers of meshes see it: closed, volume within 0.5 % of the solid's."""
    import manifold3d
    import numpy
    import trimesh

    folder, report = written
    assert report.masses is not None
    parts = [body for box in report.masses.boxes for body in box.bodies if body.by and body.kind != "liner"]
    paths = {part.name: folder / f"{part.name.replace(' ', '-')}.stl" for part in parts}
    there = [part for part in parts if paths[part.name].exists()]
    # of strips that are alike the first is written; nothing else shares a file
    several = {"hold-down", "hold-down bracket", "lifting lug", "cable housing"}
    several |= {"housing cover", "housing block"}
    assert {part.kind for part in parts if part not in there} <= several
    assert len([part for part in there if part.kind not in several]) == 7
    assert len(there) > 9
    for part in there:
        path = paths[part.name]
        assert path.read_bytes().startswith(b"boxfit, unit millimetre ")
        mesh = trimesh.load_mesh(path)
        assert mesh.is_watertight
        body = manifold3d.Manifold(
            manifold3d.Mesh(mesh.vertices.astype(numpy.float32), mesh.faces.astype(numpy.uint32))
        )
        assert body.status() == manifold3d.Error.NoError
        assert body.volume() * 2660e-9 == pytest.approx(part.properties.mass, rel=5e-3)


def test_glb_has_names_places_and_shared_modules(written: tuple[Path, SolidReport]) -> None:
    """Metres, y up, z forward; ten modules show one mesh."""
    import trimesh

    folder, _ = written
    scene = trimesh.load_scene(folder / "assembly.glb")
    nodes = set(scene.graph.nodes_geometry)
    assert {"front bay box 1 tray", "rear bay box 1 liner", "module 10", "module 10 room"} <= nodes
    assert "front bay box 1 hold-down 1" in nodes
    assert len([name for name in nodes if name.startswith("module")]) == 20
    assert {scene.graph[f"module {number}"][1] for number in range(1, 11)} == {"Heron 44 151 x 355 x 108"}
    low, _ = scene.geometry["rear bay box 1 tray"].bounds
    assert low == pytest.approx((-0.2065, 0.320, -2.502), abs=1e-6)
    _, high = scene.geometry["front bay box 1 tray"].bounds
    assert high[2] == pytest.approx((-300.0 + 19.0 + 3 * 153.0 - 2.0 + 22.0) / 1000.0, abs=1e-6)
    lid = scene.geometry["front bay box 1 lid"].visual.material
    assert (lid.alphaMode, list(lid.baseColorFactor)) == ("BLEND", [69, 87, 115, 115])


def test_mass_files_agree_by_all_ways(written: tuple[Path, SolidReport]) -> None:
    """Closed form and solid to 0.01 %, mesh to 0.5 %; totals are the sums of what they hold."""
    folder, _ = written
    told = json.loads((folder / "mass.json").read_text(encoding="utf-8"))
    assert told["units"] == {"mass": "kg", "centre": "mm", "inertia": "kg mm2"}
    for box in told["boxes"]:
        for part in box["parts"]:
            assert part["mass"] == part["by"]["solid"]
            assert part["by"]["closed_form"] == pytest.approx(part["mass"], rel=1e-4)
            assert part["by"]["mesh"] == pytest.approx(part["mass"], rel=5e-3)
        empty = sum(part["mass"] for part in (*box["parts"], *box["bought"]))
        assert box["empty"]["mass"] == pytest.approx(empty, abs=1e-5)
        assert box["with_modules"]["mass"] == pytest.approx(
            box["empty"]["mass"] + HERON.mass * len(box["modules"]), abs=1e-5
        )
    assert told["pack"]["mass"] == pytest.approx(sum(box["with_modules"]["mass"] for box in told["boxes"]))
    assert [point["name"] for point in told["point_masses"]] == ["stripped car", "drive motor", "driver"]
    assert told["car"]["mass"] == pytest.approx(told["pack"]["mass"] + 475.0 + 54.0 + 75.0)
    assert told["car_unknown"] is None
    with (folder / "mass.csv").open(encoding="utf-8", newline="") as table:
        rows = {row["name"]: row for row in csv.DictReader(table)}
    assert float(rows["pack"]["mass [kg]"]) == told["pack"]["mass"]
    assert float(rows["module 3"]["inertia zz [kg mm2]"]) == pytest.approx(
        11.6 / 12 * (151**2 + 355**2), abs=1e-3
    )


def test_car_of_unknown_height_has_no_total(tmp_path: Path) -> None:
    """The reason is told, the points that are known stay."""
    car, layout = car_and_layout()
    assert car.weighed is not None
    car = replace(car, weighed=replace(car.weighed, height_of_mass=None))
    write_solids(car, HERON, layout, built_boxes(car, HERON, layout), tmp_path)
    told = json.loads((tmp_path / "mass.json").read_text(encoding="utf-8"))
    assert told["car"] is None
    assert "weighed.height_of_mass is missing" in told["car_unknown"]
    assert [point["name"] for point in told["point_masses"]] == ["drive motor", "driver"]


def test_box_that_cannot_be_built_still_shows_its_modules(tmp_path: Path) -> None:
    """The reason is told, no part is written."""
    car, layout = car_and_layout()
    bays = tuple(replace(bay, box=replace(RULES, thickness=0.0)) for bay in car.bays)
    report = write_solids(replace(car, bays=bays), HERON, layout, (), tmp_path)
    assert report.files == ("assembly.step", "assembly.glb", "mass.json", "mass.csv")
    assert report.notes[0] == ("front bay box 1: not built: box.thickness: must be above 0 to build (got 0)")
    assert report.masses is not None
    assert report.masses.pack.mass == pytest.approx(10 * HERON.mass)


def test_empty_layout_writes_nothing(tmp_path: Path) -> None:
    """There is nothing to weigh or show."""
    car, layout = car_and_layout()
    report = write_solids(car, HERON, replace(layout, bays=()), (), tmp_path)
    assert (report, list(tmp_path.iterdir())) == (SolidReport((), (), None), [])
