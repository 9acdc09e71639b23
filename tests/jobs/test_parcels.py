"""Parcels: what is asked for and nothing else, the same bytes every time, unknown shops told."""

from dataclasses import replace
from pathlib import Path
from zipfile import ZipFile

import pytest

from boxfit.bay import BoxRules
from boxfit.box.build import box_parts
from boxfit.box.whole import BuiltBox
from boxfit.files.problems import InputError
from boxfit.jobs.parcels import SHOPS, refuse_unknown_shops, write_parcels
from boxfit.jobs.workshop_files import write_workshop_files
from tests.box.samples import LOW, RULES, bay_with, box_around

PRINTED = replace(RULES, process="printed", material="petg", thickness=4.0, lid_thickness=4.0)
TITLE = "Dunlin 850, boxes for Heron 44"


def built(rules: BoxRules) -> tuple[BuiltBox, ...]:
    bay, box = bay_with(rules), box_around(LOW, (480.3, 390.7), (138.0, 120.0), rules)
    return (BuiltBox(bay, 1, box, box_parts(bay, 1, box)),)


def parcels(folder: Path, rules: BoxRules, shops: tuple[str, ...] = SHOPS) -> dict[str, dict[str, bytes]]:
    """Results with a few files beside them that are not for every shop; what the parcels hold."""
    boxes = built(rules)
    (folder / "drawings").mkdir(exist_ok=True)
    for name in ("lid", "tray", "shelf-1"):
        (folder / f"front-bay-box-1-{name}.step").write_bytes(name.encode())
        (folder / "drawings" / f"front-bay-box-1-{name}-drawing.pdf").write_bytes(name.encode())
    (folder / "drawings" / "front-bay-box-1-drawing.pdf").write_bytes(b"box")
    (folder / "assembly.step").write_bytes(b"assembly")
    made = write_workshop_files(boxes, folder)
    found = {}
    for name in write_parcels(shops, TITLE, boxes, made, folder):
        with ZipFile(folder / name) as parcel:
            assert parcel.testzip() is None
            assert {one.date_time for one in parcel.infolist()} == {(1980, 1, 1, 0, 0, 0)}
            assert parcel.namelist() == sorted(set(parcel.namelist()))
            found[name] = {one: parcel.read(one) for one in parcel.namelist()}
    return found


def test_the_shop_that_cuts(tmp_path: Path) -> None:
    """Drawings of all that is cut, solids of what is folded, nothing of how it is used."""
    names = set(parcels(tmp_path, RULES, ("cut-shop",))["cut-shop.zip"])
    assert {"note.txt", "cut-list.csv", "weld-list.csv", "sheets.csv", "sheets.pdf"} <= names
    assert {name for name in names if name.endswith(".step")} == {"front-bay-box-1-tray.step"}
    assert {name for name in names if name.endswith("drawing.pdf")} == {
        "front-bay-box-1-drawing.pdf",
        *(f"front-bay-box-1-{name}-drawing.pdf" for name in ("lid", "tray", "shelf-1")),
    }
    assert {f"front-bay-box-1-{name}-flat.dxf" for name in ("lid", "tray", "shelf-1")} <= names
    assert not {"order-list.csv", "templates-a4.pdf", "assembly.step"} & names


def test_the_note_tells_what_the_shop_asks(tmp_path: Path) -> None:
    own = replace(RULES, tolerances=replace(RULES.tolerances, fold=0.4))
    note = parcels(tmp_path, own, ("cut-shop",))["cut-shop.zip"]["note.txt"].decode()
    for told in (
        TITLE,
        "Contact: ___",
        "millimetres, drawings 1:1",
        "aluminium-5754, 2.5 mm: inside radius 2.5 mm, K 0.325 (DIN 6935)",
        "temper to be agreed",
        "± 0.4 mm and ± 0.5 degrees at a fold",
        "F1-01  front bay box 1 tray: 1 off",
        "Findings",
        "A working aid, not an approval",
    ):
        assert told in note
    assert max(map(len, note.splitlines())) <= 100


def test_the_shop_that_prints_gets_what_its_lists_ask_for(tmp_path: Path) -> None:
    (tmp_path / "print-pieces.csv").write_text("piece,file,quantity\nleft,left.stl,2\nright,right.stl,1\n")
    (tmp_path / "gauges.csv").write_text("gauge,file,quantity\nwhole,whole.stl,0\ncorner,corner.stl,1\n")
    for name in ("left", "right", "whole", "corner", "tray"):
        (tmp_path / f"{name}.stl").write_bytes(name.encode())
    found = parcels(tmp_path, PRINTED)
    printed = found["print-shop.zip"]
    files = {"left.stl", "right.stl", "corner.stl", "print-pieces.csv", "gauges.csv", "note.txt"}
    assert set(printed) == files
    note = printed["note.txt"].decode()
    for told in ("left.stl: 2 off", "petg: walls 4 mm", "STL names no unit", "0.2 mm of air"):
        assert told in note
    assert set(found["cut-shop.zip"]) == {"note.txt"}


def test_nothing_to_print_is_told(tmp_path: Path) -> None:
    found = parcels(tmp_path, RULES, ("print-shop",))["print-shop.zip"]
    assert set(found) == {"note.txt"}
    assert "nothing to print" in found["note.txt"].decode()


def test_same_bytes_every_time_and_a_shop_named_twice_is_served_once(tmp_path: Path) -> None:
    bytes_of = []
    for name in ("one", "other"):
        folder = tmp_path / name
        folder.mkdir()
        assert set(parcels(folder, RULES, (*SHOPS, "cut-shop"))) == {"cut-shop.zip", "print-shop.zip"}
        bytes_of.append([(folder / f"{shop}.zip").read_bytes() for shop in SHOPS])
    assert bytes_of[0] == bytes_of[1]


def test_unknown_shops_are_told_all_at_once() -> None:
    refuse_unknown_shops(SHOPS)
    with pytest.raises(InputError) as told:
        refuse_unknown_shops(["cut-shop", "print", "\n"])
    assert str(told.value).splitlines() == [
        '--for: must name a shop that parcels are made for (got "print")',
        '  try: did you mean "print-shop"? Known here: cut-shop, print-shop',
        '--for: must name a shop that parcels are made for (got "\\n")',
        "  try: Known here: cut-shop, print-shop",
    ]
