"""What a fold shop would send back is told, with its figure."""

from dataclasses import replace

import pytest

from boxfit.bay import BoxRules
from boxfit.box.build import box_parts
from boxfit.sheet.checks import findings_of
from boxfit.sheet.finding import Finding
from boxfit.sheet.flat import Bend, Flat, Hole, straight
from boxfit.sheet.flats import flats_of
from boxfit.workshop import FoldShop
from tests.box.samples import LOW, RULES, bay_with, box_around

FOLD = Bend((0.0, 30.0), (200.0, 30.0), True, 90.0, 2.0, 0.33, 4.0, 27.0)
PLATE = Flat(
    name="plate",
    material="aluminium-5754",
    thickness=2.0,
    contours=(straight([(0.0, 0.0), (200.0, 0.0), (200.0, 100.0), (0.0, 100.0)]),),
    formed=(200.0, 75.0, 30.0),
    bends=(FOLD,),
)


def of(rules: BoxRules, plan: tuple[float, float]) -> tuple[Finding, ...]:
    box = box_around(LOW, plan, (138.0,), rules)
    flats = flats_of(box_parts(bay_with(rules), 1, box), rules)
    return tuple(finding for flat in flats for finding in findings_of(flat, FoldShop()))


def told(flat: Flat) -> list[tuple[str, float, float]]:
    found = findings_of(flat, FoldShop())
    return [(one.code, round(one.figure, 6), round(one.limit, 6)) for one in found]


def test_usual_rules_keep_everything() -> None:
    assert of(RULES, (480.3, 390.7)) == ()


@pytest.mark.parametrize(
    ("hole", "expected"),
    [
        (Hole((5.5, 70.0), 5.0), []),
        (Hole((5.4, 70.0), 5.0), [("hole to edge", 2.9, 3.0)]),
        (Hole((100.0, 38.5), 5.0), []),
        (Hole((100.0, 38.4), 5.0), [("hole to bend", 5.9, 6.0)]),
        (Hole((100.0, 70.0), 1.9), [("hole too small", 1.9, 2.0)]),
    ],
)
def test_holes(hole: Hole, expected: list[tuple[str, float, float]]) -> None:
    """To the edge 1.5 t = 3; to the inside of the other leg 2 t + r = 6, of which r lies before the bend."""
    assert told(replace(PLATE, holes=(hole,))) == expected


def test_a_bar_is_sawn_and_drilled() -> None:
    """6 mm thick, drilled 5 for a thread: to the edge half of that; longer than any sheet."""
    bar = replace(PLATE, thickness=6.0, bends=(), bar=True)
    assert told(replace(bar, holes=(Hole((100.0, 5.0), 5.0),))) == []
    assert told(replace(bar, holes=(Hole((100.0, 4.9), 5.0),))) == [("hole to edge", 2.4, 2.5)]
    long = straight([(0.0, 0.0), (3000.0, 0.0), (3000.0, 25.0), (0.0, 25.0)])
    assert told(replace(bar, contours=(long,))) == []
    assert [code for code, _, _ in told(replace(bar, contours=(long,), bar=False))] == [
        "blank larger than the sheet"
    ]


def test_short_flange() -> None:
    """3 t + r = 8."""
    assert told(replace(PLATE, bends=(replace(FOLD, leg=7.9),))) == [("flange too short", 7.9, 8.0)]
    assert told(replace(PLATE, bends=(replace(FOLD, leg=8.0),))) == []
    narrow = of(replace(RULES, flange=9.0), (480.3, 390.7))
    assert [(one.code, one.figure, one.limit) for one in narrow] == [("flange too short", 9.0, 10.0)] * 4


def test_tight_radius() -> None:
    """5754 from 1.5 to 3 mm: one thickness (EN 485-2)."""
    assert told(replace(PLATE, bends=(replace(FOLD, radius=1.9),))) == [("radius too tight", 1.9, 2.0)]
    (one,) = [one for one in of(replace(RULES, bend_radius=2.0), (480.3, 390.7))]
    assert one.text == (
        "front bay box 1 tray: radius too tight: inside radius in aluminium-5754, EN 485-2, 5754 O/H111, "
        "a dealer's copy: 2 mm, 2.5 asked for; try: an inside radius of 2.5 (box.bend_radius), or a sheet "
        "that bends tighter"
    )


def test_blank_larger_than_the_sheet() -> None:
    """A long box: its lid goes on no sheet, and the tray's floor and long walls neither."""
    found = of(RULES, (2600.0, 300.0))
    assert {(one.code, one.figure, one.limit) for one in found} >= {
        ("blank larger than the sheet", 2644.0, 2480.0)
    }
    assert {one.part for one in found} == {
        "front bay box 1 tray floor",
        "front bay box 1 tray wall right",
        "front bay box 1 tray wall left",
        "front bay box 1 lid",
        "front bay box 1 cover plate",
    }
    bar = straight([(0, 0), (2600, 0), (2600, 10), (0, 10)])
    assert findings_of(replace(PLATE, contours=(bar,), bends=(), bar=True), FoldShop()) == ()
    across = findings_of(
        replace(PLATE, contours=(straight([(0, 0), (1300, 0), (1300, 1300), (0, 1300)]),), bends=()),
        FoldShop(),
    )
    assert [(one.code, one.figure, one.limit) for one in across] == [
        ("blank larger than the sheet", 1300.0, 1230.0)
    ]


def test_fold_longer_than_the_brake() -> None:
    """The fold of the plate is 200 long."""
    assert findings_of(PLATE, FoldShop(brake=200.0)) == ()
    (one,) = findings_of(PLATE, FoldShop(brake=199.0))
    assert (one.code, one.figure, one.limit) == ("fold longer than the brake", 200.0, 199.0)


def test_the_shops_own_shortest_flange() -> None:
    """In place of 3 t + r = 8: the leg is 27."""
    (one,) = findings_of(PLATE, FoldShop(least_flange=28.0))
    assert (one.code, one.figure, one.limit) == ("flange too short", 27.0, 28.0)
    short = replace(PLATE, bends=(replace(FOLD, leg=7.0),))
    assert findings_of(short, FoldShop(least_flange=7.0)) == ()


@pytest.mark.parametrize(
    ("low", "expected"),
    [
        ((40.0, 45.0), []),
        ((2.9, 45.0), [("hole to edge", 2.9, 3.0)]),
        ((40.0, 35.9), [("hole to bend", 5.9, 6.0)]),
        ((40.0, 77.1), [("hole to edge", 2.9, 3.0)]),
    ],
)
def test_openings(low: tuple[float, float], expected: list[tuple[str, float, float]]) -> None:
    """As for holes, from a window of 30 x 20; the bend's middle is at 30 and it uses up 4."""
    x, y = low
    window = straight([(x, y), (x + 30.0, y), (x + 30.0, y + 20.0), (x, y + 20.0)])
    assert told(replace(PLATE, contours=(*PLATE.contours, window))) == expected


def test_an_opening_keeps_off_holes() -> None:
    window = straight([(40.0, 45.0), (70.0, 45.0), (70.0, 65.0), (40.0, 65.0)])
    near = replace(PLATE, contours=(*PLATE.contours, window), holes=(Hole((75.0, 55.0), 5.0),))
    assert ("hole to edge", 2.5, 3.0) in told(near)
