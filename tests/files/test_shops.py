"""What is believed of the tables about shops, gasket and mounts. Expected values: by hand from the text."""

from pathlib import Path

import pytest

from boxfit.bay import Bay, Mount
from boxfit.files.car import read_car
from boxfit.files.examples import CAR
from boxfit.workshop import FoldedK, FoldShop, PrintShop, Tolerances
from tests.files.samples import MOUNTS, SHOPS
from tests.samples import CAR_FILES, write_car

BOX = """
[box]
gasket_width = 8.0
gasket_thickness = 4.5
cover_material = "stainless-1.4301"
"""


def bays_of(tmp_path: Path, car: str = "", front: str = "") -> tuple[Bay, ...]:
    files = {
        **CAR_FILES,
        "car.toml": CAR_FILES["car.toml"] + car,
        "front.toml": CAR_FILES["front.toml"] + front,
    }
    return read_car(write_car(tmp_path, files)).bays


def test_shops_are_the_same_for_every_bay(tmp_path: Path) -> None:
    for bay in bays_of(tmp_path, car=SHOPS):
        assert bay.box.fold_shop == FoldShop(
            sheet=(2000.0, 1000.0),
            brake=2050.0,
            least_flange=12.0,
            weld_gap=0.4,
            weld_bead=2.0,
            k_table=(FoldedK(2.5, 2.5, 0.41), FoldedK(2.5, 4.0, 0.43)),
            part_gap=6.0,
            sheet_edge=9.0,
        )
        assert bay.box.print_shop == PrintShop((220.0, 210.0, 250.0), 0.3, 1.6)
        assert bay.box.tolerances == Tolerances(0.4, 0.2, 0.1, 0.3, 1.0, 1.5, 0.25)


def test_what_is_left_out_is_usual_practice(tmp_path: Path) -> None:
    front, _ = bays_of(tmp_path, car="\n[fold_shop]\nbrake = 1200.0\n[tolerances]\nweld = 2.0\n")
    assert front.box.fold_shop == FoldShop(brake=1200.0)
    assert front.box.print_shop == PrintShop()
    assert front.box.tolerances == Tolerances(weld=2.0)


def test_gasket_and_cover_of_a_bay_are_its_own(tmp_path: Path) -> None:
    front, rear = bays_of(tmp_path, front=BOX)
    assert (front.box.gasket_width, front.box.gasket_thickness) == (8.0, 4.5)
    assert (front.box.cover_material, rear.box.cover_material) == ("stainless-1.4301", "")
    assert front.box.rim_below_top == pytest.approx(2.0 + 3.0)
    assert rear.box.rim_below_top == 2.0


def test_mounts(tmp_path: Path) -> None:
    front, rear = bays_of(tmp_path, front=MOUNTS)
    assert front.mounts == (
        Mount("bracket, left", (150.0, 320.0, 250.0), "up", 8.0, 1.2, True),
        Mount("bracket, right", (150.0, -320.0, 250.0), "left", 12.0, 2.0, False),
    )
    assert rear.mounts == ()


def test_the_readme_tells_of_every_key_and_of_usual_practice(tmp_path: Path) -> None:
    """Its tables, read as they stand there, give what is usual; the K and the least flange besides."""
    text = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    blocks = [block.split("```", 1)[0] for block in text.split("```toml\n")[1:]]
    shops = next(block for block in blocks if block.startswith("[fold_shop]"))
    mounts = next(block for block in blocks if block.startswith("[[mount]]"))
    front, _ = bays_of(tmp_path, car=f"\n{shops}", front=f"\n{mounts}")
    assert front.box.fold_shop == FoldShop(
        least_flange=10.0, k_table=(FoldedK(2.5, 2.5, 0.41),), prices=(("aluminium-5754", 6.5),)
    )
    assert front.box.print_shop == PrintShop()
    assert front.box.tolerances == Tolerances()
    assert [mount.name for mount in front.mounts] == ["front left bracket"]
    keys = {*CAR["fold_shop"], *CAR["print_shop"], *CAR["tolerances"]}  # type: ignore[misc]
    assert keys == {line.split(" =")[0] for line in shops.splitlines() if " = " in line}
