"""What the judge grants a box's mass, and where, holds what the exact sums find, however it is stepped."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.judge.balance import box_loads
from boxfit.judge.box_mass import box_mass
from boxfit.judge.claim import Claim, ClaimedBox, read_claim
from boxfit.judge.outline import Outline, extent
from boxfit.judge.places import set_box
from boxfit.judge.shape import Band, bands
from boxfit.weight.box_mass import box_mass as exact_box_mass
from tests.judge.samples import BAY, RULES, Data
from tests.judge.stepped import L_CAR, L_PLAN, X, Z, a_box, l_layout, plain, two_tiers
from tests.judge.strategies import square_outlines

WELDED = replace(RULES, process="welded", shape="stepped", thickness=1.5, flange=8.0)
SCALE = 20.0


@given(square_outlines(), st.booleans(), st.booleans())
def test_exact_mass_and_its_centre_lie_in_the_bracket(small: Outline, wide: bool, cover: bool) -> None:
    lower = tuple((SCALE * x, SCALE * y) for x, y in small)
    around = extent(lower)
    upper = (
        plain(around.low[0] - 40.0, around.low[1], around.high[0] + 30.0, around.high[1]) if wide else lower
    )
    tiers: tuple[Data, ...] = tuple({"stands_on": Z + up, "modules": [(0.0, 0.0)]} for up in (4.5, 61.0))
    told = a_box((lower, upper), 8, tiers)
    box = ClaimedBox.model_validate(told)
    claim = read_claim(l_layout())
    assert isinstance(claim, Claim)
    bay = replace(BAY, box=WELDED)
    filled = claim.model_copy(update={"bays": (claim.bays[0].model_copy(update={"boxes": (box,)}),)})
    (load,) = box_loads(filled, [set_box("box", bay, box)])
    height = box.outside.high[2] - box.outside.low[2]
    exact = exact_box_mass((lower, upper), height, (4.5, 61.0), WELDED, cover)
    assert load.mass.low <= exact.mass <= load.mass.high
    for axis in range(3):
        centre = box.outside.low[axis] + exact.centre[axis]
        assert box.outside.low[axis] <= load.extent.low[axis] <= centre
        assert centre <= load.extent.high[axis] <= box.outside.high[axis]


@pytest.mark.parametrize(
    ("data", "low", "high"),
    [
        # hand: the sheet of the L balances at 2199463 / 25565, its sides at 67608 / 732; 223 / 4 aside
        (l_layout(), 2199463 / 25565 - 55.75, 67608 / 732 + 55.75),
        # hand: below at 50, above at 100.5; 222 / 4 aside
        (two_tiers(), 50.0 - 55.5, 100.5 + 55.5),
    ],
)
def test_middle_of_stepped_boxes_by_hand(data: Data, low: float, high: float) -> None:
    claim = read_claim(data)
    assert isinstance(claim, Claim)
    (load,) = box_loads(claim, [set_box("box", L_CAR.bays[0], claim.bays[0].boxes[0])])
    assert (load.extent.low[0], load.extent.high[0]) == pytest.approx((X + low, X + high))


def test_bracket_of_an_l_by_hand() -> None:
    # hand: 25565 mm2 in plan, 732 mm round it, 62.5 high; lid 22 wider all round; 2660 kg/m3
    rules = replace(RULES, liner=0.0)
    found = box_mass([Band(L_PLAN, 0.0, 62.5)], rules, 1)
    lid = 25565 + 732 * 22 + 4 * 22**2
    shell = 2660e-9 * (2.5 * (25565 + 732 * 62.5) + 2.0 * lid)
    assert found.low == pytest.approx(0.8 * shell)
    # returned edges: at most 10 above the lid, 2 of sheet, and 8 x 2 and the bend's 8 for a brake
    edge = 10.0 + 2.0 + 16.0 + 8.0
    cover_and_flange = 2660e-9 * (2.5 * (lid - 25565) + 2.0 * (lid + 732 * edge))
    assert found.high == pytest.approx(1.3 * (shell + cover_and_flange) + 4.0)


def test_bands_of_two_tiers_by_hand() -> None:
    tiers: tuple[Data, ...] = (
        {"stands_on": Z + 5.5, "modules": [(0.0, 0.0)]},
        {"stands_on": Z + 63.0, "modules": [(0.0, 0.0)]},
    )
    low, high = plain(0.0, 0.0, 121.0, 81.0), plain(0.0, 0.0, 222.0, 81.0)
    told = ClaimedBox.model_validate(a_box((low, high), 8, tiers))
    # hand: the upper band begins under the sheet 2.5 thick its modules stand on
    assert bands(told, RULES) == (Band(low, Z, Z + 60.5), Band(high, Z + 60.5, Z + 120.0))
