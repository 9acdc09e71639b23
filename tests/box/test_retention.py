"""Whole boxes on their feet: by hand, in balance, told where nothing can be shown, and judged as written."""

import csv
import json
from dataclasses import replace
from math import cos, radians
from pathlib import Path

import pytest

from boxfit.bay import Mount, Opening, Way
from boxfit.box.retention.masses import filled
from boxfit.box.retention.whole import HELD, NO_STRENGTH, PULLS, Retention, retention_of
from boxfit.box.swelling import heat_of, swelling_of
from boxfit.box.whole import BuiltBox, built_boxes
from boxfit.car import Car, PullFactors
from boxfit.judge.retention import judge_retention
from boxfit.module import Current
from boxfit.report.heat_text import heat_lines
from boxfit.report.retention_text import FORCE_HEADS, forces_csv, retention_csv, retention_lines
from boxfit.retention.rules import rules_of
from boxfit.retention.use import Use
from boxfit.standards.load_factors import RULE_SETS
from tests.box.samples import HERON, car_and_layout

CAR, LAYOUT = car_and_layout()
MODULE = replace(HERON, current=Current(100.0, 250.0))
TWENTY = RULE_SETS["twenty-g"]
FRONT = LAYOUT.bays[0].boxes[0]


def mounted(*places: tuple[float, float]) -> tuple[BuiltBox, ...]:
    """The boxes of the sample, the front one on mounts 13 mm below its floor."""
    mounts = tuple(
        Mount(f"mount {number}", (x, y, FRONT.low[2] - 13.0), "up", 8.0, 2.0, True)
        for number, (x, y) in enumerate(places, start=1)
    )
    front, rear = CAR.bays
    opened = replace(front, mounts=mounts, opening=Opening("up"))
    return built_boxes(replace(CAR, bays=(opened, rear)), MODULE, LAYOUT)


BESIDE = 30.0
CORNERS = tuple(
    (x, y)
    for x in (FRONT.low[0] + 60.0, FRONT.high[0] - 60.0)
    for y in (FRONT.low[1] - BESIDE, FRONT.high[1] + BESIDE)
)
BUILT = mounted(*CORNERS)


def reckoned(built: tuple[BuiltBox, ...]) -> Retention:
    return retention_of(TWENTY, MODULE, built)


WHOLE = reckoned(BUILT)


def use_of(retention: Retention, item: str, check: str) -> Use:
    return next(use for use in retention.uses if item in use.item and use.check == check)


def test_mass_and_pull_by_hand() -> None:
    """Six modules of 11.6 kg and a box of some 12 kg; 20 times 9.81 forwards."""
    box = WHOLE.boxes[0]
    assert box.heavy.mass == pytest.approx(6 * 11.6 + 12.0, abs=3.0)
    assert [one.pull for one in box.pulled] == list(PULLS)
    assert box.pulled[0].load == pytest.approx((box.heavy.mass * 20.0 * 9.81, 0.0, 0.0))
    assert box.pulled[2].load == pytest.approx((0.0, box.heavy.mass * 15.0 * 9.81, 0.0))


def test_four_feet_share_by_hand() -> None:
    """Forwards on four corners: a quarter each across, and F h / (2 d) up and down."""
    heavy, pulled = WHOLE.boxes[0].heavy, WHOLE.boxes[0].pulled[0]
    assert pulled.held is not None
    force = pulled.load[0]
    high = heavy.at[2] - (FRONT.low[2] - 13.0)
    apart = CORNERS[-1][0] - CORNERS[0][0]
    for held in pulled.held:
        assert held.across == pytest.approx(force / 4.0, rel=0.05)
        assert abs(held.pull) == pytest.approx(force * high / (2.0 * apart), rel=0.02)
        assert (held.pull > 0.0) == (held.fixing.at[0] < heavy.at[0])


def test_floor_wall_and_lid_by_hand() -> None:
    """3 modules on the floor at 10 g over 476 x 374; 6 before the front wall at 20 g, up to their tops."""
    floor = use_of(WHOLE, "front bay box 1 floor", "bent by the modules on it")
    pressure = 3 * 11.6 * 10.0 * 9.81 / (476.0 * 374.0)
    beta = 0.3762 + (0.4530 - 0.3762) * (1 / 1.2 - 374 / 476) / (1 / 1.2 - 1 / 1.4)
    assert floor.load == pytest.approx(beta * pressure * 374.0**2 / 2.5**2, rel=1e-3)
    wall = use_of(WHOLE, "front bay box 1 front wall", "bent by the modules behind it")
    corner = use_of(WHOLE, "front bay box 1 front wall, each corner", "weld sheared")
    assert corner.load == pytest.approx(6 * 11.6 * 20.0 * 9.81 / 2.0)
    assert wall.pull == "front"
    lid = use_of(WHOLE, "front bay box 1 lid", "bent by its own weight")
    assert lid.pull == "up"


def test_modules_go_to_their_hold_downs() -> None:
    """Every module is held, so no module is thrown at the lid, and bars hold the mass of all."""
    assert not any("not held down" in use.check for use in WHOLE.uses)
    assert any(use.check == "bar bent" for use in WHOLE.uses)


def test_modules_without_hold_downs_are_thrown_at_the_lid() -> None:
    bare = tuple(
        replace(one, parts=replace(one.parts, fittings=replace(one.parts.fittings, strips=())))
        for one in BUILT
    )
    found = reckoned(bare)
    assert (
        use_of(found, "front bay box 1 lid", "bent by its own weight and 6 modules not held down").pull
        == "up"
    )
    assert not any(use.check == "bar bent" for use in found.uses)


@pytest.mark.parametrize("places", [(), CORNERS[:1], CORNERS[:1] + CORNERS[2:3]])
def test_too_few_mounts_are_told_as_endless(places: tuple[tuple[float, float], ...]) -> None:
    """None, one, and two in a row: the box can turn."""
    found = reckoned(mounted(*places))
    use = use_of(found, "front bay box 1", HELD)
    assert use.utilisation == float("inf")
    assert "[[mount]]" in use.remedy
    assert "nothing bears it" in "\n".join(retention_lines(found))


def test_plastic_cannot_be_shown() -> None:
    printed = replace(CAR.bays[0].box, process="printed", material="petg", thickness=4.0, bend_radius=0.0)
    bay = replace(CAR.bays[0], box=printed)
    built = built_boxes(replace(CAR, bays=(bay, CAR.bays[1])), MODULE, LAYOUT)
    found = reckoned(built)
    only = [use for use in found.uses if "front bay" in use.item]
    assert [use.check for use in only] == [NO_STRENGTH]
    assert only[0].utilisation == float("inf")
    assert "petg" in only[0].rule
    assert "metal frame" in only[0].remedy


def written(retention: Retention, built: tuple[BuiltBox, ...], folder: Path) -> None:
    (folder / "retention.csv").write_text(retention_csv(retention), encoding="utf-8")
    (folder / "retention-forces.csv").write_text(forces_csv(retention), encoding="utf-8")
    boxes = [
        {"name": one.parts.name, "with_modules": {"mass": filled(one, MODULE).mass * 1.001}} for one in built
    ]
    (folder / "mass.json").write_text(json.dumps({"boxes": boxes}), encoding="utf-8")


def test_what_is_written_is_judged_clear(tmp_path: Path) -> None:
    written(WHOLE, BUILT, tmp_path)
    assert judge_retention(tmp_path) == ()
    rows = list(csv.DictReader((tmp_path / "retention.csv").read_text().splitlines()))
    assert len(rows) == len(WHOLE.uses)
    assert [row["utilisation"] for row in rows][:1] == ["endless"]  # the rear box has no mounts


SPOILED = {
    "retention-balance": ("retention-forces.csv", "mount 1", "force z"),
    "retention-load": ("retention-forces.csv", "load", "factor"),
    "retention-mass": ("retention-forces.csv", "load", "mass"),
    "retention-share": ("retention.csv", "front wall", "load"),
    "retention-remedy": ("retention.csv", "front wall", "what to change"),
}


@pytest.mark.parametrize("code", SPOILED)
def test_each_fault_is_found(code: str, tmp_path: Path) -> None:
    """One figure of one row changed."""
    written(WHOLE, BUILT, tmp_path)
    file, row_of, column = SPOILED[code]
    rows = list(csv.DictReader((tmp_path / file).read_text().splitlines()))
    row = next(row for row in rows if row_of in row.get("what", "") + row.get("item", ""))
    row[column] = "" if column == "what to change" else f"{float(row[column]) * 1.3 + 1.0:.3f}"
    with (tmp_path / file).open("w", newline="") as out:
        writer = csv.DictWriter(out, list(row), lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    assert code in {finding.code for finding in judge_retention(tmp_path)}


def test_lugs_are_checked_by_the_mass_of_their_box(tmp_path: Path) -> None:
    """Half of it four times over, 15 degrees off upright; a heavier box than weighed is told."""
    lug = use_of(WHOLE, "front bay box 1 lifting lug 1", "bearing of the shackle's pin")
    heavy = WHOLE.boxes[0].heavy.mass
    assert lug.load == pytest.approx(heavy * 9.81 * 2.0 / cos(radians(15.0)))
    assert (lug.pull, lug.passes) == ("lifted", True)
    written(WHOLE, BUILT, tmp_path)
    path = tmp_path / "retention.csv"
    path.write_text(path.read_text().replace(f",lifted,{lug.load:.0f},", f",lifted,{1.1 * lug.load:.0f},"))
    found = [one for one in judge_retention(tmp_path) if one.code == "retention-load"]
    assert {one.place for one in found} >= {"front bay box 1 lifting lug 1, bearing of the shackle's pin"}


def test_lists_that_are_missing_are_found(tmp_path: Path) -> None:
    assert [finding.code for finding in judge_retention(tmp_path)] == ["retention-unread"]
    written(WHOLE, BUILT, tmp_path)
    (tmp_path / "retention-forces.csv").write_text(",".join(FORCE_HEADS) + "\n")
    assert {finding.code for finding in judge_retention(tmp_path)} == {"retention-unread"}


def test_rules_of_a_car() -> None:
    assert rules_of(CAR) == TWENTY
    assert rules_of(replace(CAR, retention="r100-m1-n1")).front == 28.0
    own = rules_of(replace(CAR, retention=PullFactors("", 8.0, 0.0, 5.0, 5.0, 5.0)))
    assert (own.front, own.rear, own.status) == (8.0, 0.0, "the user's own")
    found = retention_of(own, MODULE, BUILT)
    assert [one.pull for one in found.boxes[0].pulled] == ["front", "left", "right", "up", "down"]
    assert "used to" in "\n".join(retention_lines(found))


@pytest.mark.parametrize("rules", RULE_SETS)
def test_what_does_not_pass_has_a_remedy(rules: str) -> None:
    """Under every rule set, the hardest too."""
    found = retention_of(RULE_SETS[rules], MODULE, BUILT)
    assert all(use.remedy for use in found.uses if not use.passes)
    assert all(len(line) <= 100 for line in retention_lines(found))


def test_more_pull_never_uses_less() -> None:
    milder = retention_of(replace(TWENTY, front=10.0, side=7.5, rear=5.0, up=5.0, down=5.0), MODULE, BUILT)
    mild = {(use.item, use.check): use.utilisation for use in milder.uses}
    assert all(use.utilisation >= mild[use.item, use.check] for use in WHOLE.uses)


def test_a_mount_in_front_faces_the_way_it_is_told() -> None:
    """A box on a wall of the body: its feet are troughs, and a pull off that wall is tension."""
    x = FRONT.high[0] + 40.0
    faces: Way = "rear"
    mounts = tuple(
        Mount(f"wall {number}", (x, y, FRONT.low[2] + 60.0), faces, 8.0, 2.0, True)
        for number, y in enumerate((FRONT.low[1] + 80.0, FRONT.high[1] - 80.0), start=1)
    ) + tuple(
        Mount(f"low {k}", (*place, FRONT.low[2] - 13.0), "up", 8.0, 2.0, True)
        for k, place in enumerate(CORNERS)
    )
    front = replace(CAR.bays[0], mounts=mounts, opening=Opening("up"))
    car: Car = replace(CAR, bays=(front, CAR.bays[1]))
    pulled = reckoned(built_boxes(car, MODULE, LAYOUT)).boxes[0].pulled[1]
    assert pulled.held is not None
    assert all(held.pull > 0.0 for held in pulled.held if "wall" in held.fixing.name)


def test_swelling_by_hand() -> None:
    """A row along y: 355 of 374 - 2 x 2.5 - 2 x 3 are the module; 6 % of 355 is 21.3."""
    found = swelling_of(BUILT[0], MODULE)
    assert found is not None
    assert found.modules == 1
    assert (found.grows, found.free) == pytest.approx((21.3, 8.0))
    assert found.lacks == pytest.approx(13.3)


def test_heat_by_hand() -> None:
    """100 A of 50 Ah: 3 % x 2 of 4400 W is 264 W a module; 20 K over 3 mm / 0.45 and 1/6."""
    found = heat_of(BUILT[0], MODULE)
    assert found.rate == 2.0
    assert found.made == pytest.approx(6 * 264.0)
    area = 2.0 * (0.476 * 0.374 + 0.374 * 0.296 + 0.296 * 0.476)
    assert found.off == pytest.approx(area * 20.0 / (0.003 / 0.45 + 1.0 / 6.0))
    assert found.needs
    assert "COOLING" in "\n".join(heat_lines(BUILT, MODULE))
    calm = replace(MODULE, current=None)
    assert "not judged" in "\n".join(heat_lines(BUILT, calm))
    assert not heat_of(BUILT[0], replace(MODULE, current=Current(20.0, 50.0))).asks
