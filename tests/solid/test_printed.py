"""Pieces of printed boxes: closed as two programs see them, at their fit, and put together from above."""

import csv
import shutil
import subprocess
import sys
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest

from boxfit.bay import Way
from boxfit.box.build import box_parts
from boxfit.box.fitting import Cutout, Fittings, Strip
from boxfit.box.printed import printed_parts
from boxfit.box.rib_clear import with_clear_ribs
from boxfit.box.whole import BuiltBox
from boxfit.box_shape import rectangle
from boxfit.judge.printed import judge_printed
from boxfit.layout import PlacedBox
from boxfit.solid.fittings import StripForms
from boxfit.solid.made import made_parts
from boxfit.solid.mesh import write_stl
from boxfit.solid.pieces import read_stl, solid_of
from boxfit.solid.printed import write_printed
from boxfit.solid.weighed import solid_properties
from boxfit.workshop import PrintShop
from tests.box.samples import LOW, RULES, bay_with, box_around, plan_by, stepped_box

SHOP = PrintShop(bed=(200.0, 200.0, 150.0))
PRINTED = replace(RULES, process="printed", material="petg", thickness=4.0, flange=24.0, print_shop=SHOP)
PLAIN = box_around(LOW, (300.0, 220.0), (80.0, 70.0), PRINTED)
STEPPED = stepped_box((rectangle((-300.0, -190.0), (-20.0, -50.0)), plan_by("L")), (70.0, 80.0), PRINTED)
AGAIN = """
import sys
from pathlib import Path
from tests.solid.test_printed import PLAIN, built
from boxfit.solid.printed import write_printed
write_printed((built(PLAIN),), Path(sys.argv[1]))
"""


def built(box: PlacedBox) -> BuiltBox:
    """A box in a bay of its own, with what it is made of."""
    bay = bay_with(replace(PRINTED, shape="stepped" if box.is_stepped else "rectangular"))
    return BuiltBox(bay, 1, box, box_parts(bay, 1, box))


@pytest.fixture(scope="module", params=["plain", "stepped"])
def written(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> tuple[Path, BuiltBox]:
    """The whole parts of a box and their pieces."""
    folder = tmp_path_factory.mktemp("printed")
    one = built(PLAIN if request.param == "plain" else STEPPED)
    for part in made_parts(one.bay, one.box, one.parts):
        write_stl(part.body.form.mesh, folder / f"{part.body.name.replace(' ', '-')}.stl")
    files, notes = write_printed((one,), folder)
    assert notes == ()
    assert all((folder / file).exists() for file in files)
    return folder, one


def stems(one: BuiltBox) -> list[str]:
    return [part.name.replace(" ", "-") for part in printed_parts(one.parts, one.bay.box)]


def numbered(folder: Path, stem: str) -> list[Path]:
    """Pieces in the order of their numbers."""
    found = folder.glob(f"{stem}-piece-*.stl")
    return sorted(found, key=lambda path: int(path.stem.rsplit("-", 1)[1]))


def test_judge_finds_nothing(written: tuple[Path, BuiltBox]) -> None:
    folder, one = written
    assert len(stems(one)) == 4
    assert judge_printed(folder, dict.fromkeys(stems(one), SHOP)) == ()


def test_two_programs_call_every_piece_closed_and_of_one_volume(written: tuple[Path, BuiltBox]) -> None:
    import manifold3d
    import numpy
    import trimesh

    folder, one = written
    for stem in stems(one):
        paths = numbered(folder, stem)
        assert len(paths) > 1
        for path in paths:
            assert path.read_bytes().startswith(b"boxfit, unit millimetre ")
            mesh = trimesh.load_mesh(path)
            assert mesh.is_watertight
            assert mesh.is_winding_consistent
            raw = manifold3d.Mesh64(mesh.vertices, mesh.faces.astype(numpy.uint64))
            body = manifold3d.Manifold(raw)
            assert body.status() == manifold3d.Error.NoError
            assert body.volume() == pytest.approx(mesh.volume, rel=1e-6)
            assert all(side <= 200.01 for side in mesh.extents)


def test_pieces_and_the_air_of_their_joints_are_the_whole(written: tuple[Path, BuiltBox]) -> None:
    """What is missing is a film as thick as the fit: its volume tells about the surface it has."""
    folder, one = written
    for stem in stems(one):
        whole, pieces = solid_of(read_stl(folder / f"{stem}.stl")), numbered(folder, stem)
        bodies = [solid_of(read_stl(path)) for path in pieces]
        air = whole
        for body in bodies:
            air = air - body
        assert sum(body.volume() for body in bodies) + air.volume() == pytest.approx(whole.volume(), rel=1e-6)
        # the film has two broad sides, its rims add little
        assert 2.0 * air.volume() / SHOP.joint == pytest.approx(air.surface_area(), rel=0.15)
        gaps = [first.min_gap(second, 1.0) for first, second in combinations(bodies, 2)]
        assert min(gaps) == pytest.approx(SHOP.joint, abs=1e-3)


def test_pieces_go_together_from_above(written: tuple[Path, BuiltBox]) -> None:
    """In the order of their numbers: each, lowered from any height, meets none that is there already."""
    folder, one = written
    for stem in stems(one):
        bodies = [solid_of(read_stl(path)) for path in numbered(folder, stem)]
        for number, body in enumerate(bodies):
            for height in (0.0, 1.0, 4.0, 12.0, 50.0, 120.0):
                raised = body.translate((0.0, 0.0, height))
                assert all((raised ^ other).volume() < 1e-3 for other in bodies[:number])


def test_dovetails_hold_the_pieces_of_a_plate(written: tuple[Path, BuiltBox]) -> None:
    """Drawn away by 2 mm in plan, the first piece of the lid meets a neighbour whichever the way."""
    folder, one = written
    first, *others = [solid_of(read_stl(path)) for path in numbered(folder, stems(one)[1])]
    for way in ((-2.0, 0.0, 0.0), (0.0, -2.0, 0.0)):
        assert any((first.translate(way) ^ other).volume() > 1.0 for other in others)


def test_list_of_pieces(written: tuple[Path, BuiltBox]) -> None:
    folder, one = written
    with (folder / "print-pieces.csv").open(encoding="utf-8", newline="") as table:
        rows = list(csv.DictReader(table))
    assert len(rows) == sum(len(numbered(folder, stem)) for stem in stems(one))
    for row in rows:
        mesh = read_stl(folder / row["file"])
        assert float(row["volume [cm3]"]) * 1000.0 == pytest.approx(mesh.volume, abs=6.0)
        # 1270 kg/m3
        assert float(row["mass [g]"]) == pytest.approx(mesh.volume * 1.27e-3, abs=0.06)
        assert max(float(row[f"bed used {axis} [%]"]) for axis in "xyz") <= 100.0


def test_same_bytes_from_another_process(written: tuple[Path, BuiltBox], tmp_path: Path) -> None:
    folder, one = written
    if one.box is not PLAIN:
        pytest.skip("once is enough")
    for stem in stems(one):
        shutil.copy(folder / f"{stem}.stl", tmp_path)
    subprocess.run([sys.executable, "-c", AGAIN, str(tmp_path)], check=True, env={"PYTHONHASHSEED": "77"})
    for path in tmp_path.iterdir():
        assert path.read_bytes() == (folder / path.name).read_bytes(), path.name


def test_nothing_for_a_box_that_is_not_printed(tmp_path: Path) -> None:
    bay = bay_with(RULES)
    box = box_around(LOW, (300.0, 220.0), (80.0,), RULES)
    assert write_printed((BuiltBox(bay, 1, box, box_parts(bay, 1, box)),), tmp_path) == ((), ())
    assert list(tmp_path.iterdir()) == []


def test_a_tray_with_ribs_and_cutouts_weighs_what_its_solid_does() -> None:
    """A hole where ribs would stand, a drain on a rib of the floor."""
    one, (x, y, z) = built(PLAIN), LOW
    hole = Cutout("gland", "front", (PLAIN.high[0], y + 110.0, z + 40.0), diameter=30.0)
    drain = Cutout("drain", "down", (x + 49.0, y + 60.0, z), diameter=12.0)
    tray = replace(one.parts.tray, cutouts=(hole, drain))
    parts = with_clear_ribs(replace(one.parts, tray=tray))
    assert parts.tray.ribs != tray.ribs
    made = made_parts(one.bay, one.box, parts)[0]
    solid = solid_properties(made.body.form.shape, 1.0)
    assert solid.mass == pytest.approx(made.closed_form.volume, rel=1e-6)
    where = tuple(low + own for low, own in zip(LOW, made.closed_form.centre, strict=True))
    assert solid.centre == pytest.approx(where, abs=1e-3)


def test_blocks_for_hold_downs_are_printed_too(tmp_path: Path) -> None:
    """Blocks made alike are one row with how many; a bar of metal is none."""
    one = built(PLAIN)
    legs: tuple[tuple[tuple[Way, float], ...], ...] = (
        (("up", 14.0),),
        (("up", 14.0),),
        (("up", 14.0),),
        (("down", 25.0), ("left", 13.0)),
    )
    strips = tuple(
        Strip(
            kind="hold-down bracket",
            name=f"front bay box 1 strip {number}",
            material="petg" if len(own) == 1 else "aluminium-5754",
            thickness=6.0,
            radius=0.0 if len(own) == 1 else 6.0,
            start=(0.0, 0.0, 0.0),
            along="front",
            width=width,
            legs=own,
            inwards="left",
            bar=len(own) == 1,
        )
        for number, (own, width) in enumerate(zip(legs, (25.0, 25.0, 30.0, 200.0), strict=True), start=1)
    )
    one = replace(one, parts=replace(one.parts, fittings=Fittings(strips)))
    forms, bodies = StripForms(), [part.body for part in made_parts(one.bay, one.box, one.parts)]
    for body in (*bodies, *(forms.body(strip) for strip in strips)):
        write_stl(body.form.mesh, tmp_path / f"{body.name.replace(' ', '-')}.stl")
    write_printed((one,), tmp_path)
    with (tmp_path / "print-pieces.csv").open(encoding="utf-8", newline="") as table:
        rows = [row for row in csv.DictReader(table) if "strip" in row["piece"]]
    assert [(row["file"], row["quantity"]) for row in rows] == [
        ("front-bay-box-1-strip-1.stl", "2"),
        ("front-bay-box-1-strip-3.stl", "1"),
    ]
    assert float(rows[0]["volume [cm3]"]) == pytest.approx(25.0 * 14.0 * 6.0 / 1e3)
    stems_of_strips = {row["file"][:-4]: SHOP for row in rows}
    assert judge_printed(tmp_path, stems_of_strips) == ()
