"""The play of rows inside a box: by hand, by what must always hold, and against drawn lots."""

from dataclasses import replace
from math import radians, tan

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import BoxRules, Process
from boxfit.box.build import box_parts
from boxfit.box.fit import RowFit, inside_fit, remedy
from boxfit.box.fit_ends import bend_reaches
from boxfit.box.whole import BuiltBox
from boxfit.box_shape import rectangle
from boxfit.layout import PlacedBox, PlacedModule, Tier
from boxfit.module import Module, stances
from boxfit.workshop import FoldShop, Tolerances
from tests.box.samples import HERON, RULES, bay_with

LOW = (0.0, 0.0, 260.0)
LEAN = radians(0.5)


def snug(counts: tuple[int, ...], rules: BoxRules = RULES, module: Module = HERON) -> BuiltBox:
    """A box snug round tiers of so many modules in a row along y, their length along x, standing upright."""
    stance = next(one for one in stances(module) if one.length_along == "x")
    length, width, height = stance.size
    beside = rules.thickness + rules.liner + rules.gap
    step = width + module.spacing
    tiers: list[Tier] = []
    level = LOW[2] + rules.thickness + rules.liner
    for count in counts:
        modules = tuple(
            PlacedModule(stance, (LOW[0] + beside, LOW[1] + beside + place * step, level))
            for place in range(count)
        )
        tiers.append(Tier(level, height + module.room.top, modules))
        level += height + module.room.top + rules.headroom + rules.thickness
    most = max(counts)
    high = (
        LOW[0] + 2.0 * beside + length,
        LOW[1] + 2.0 * beside + most * step - module.spacing,
        level - rules.thickness + rules.lid_thickness,
    )
    box = PlacedBox(LOW, high, tuple(tiers))
    bay = bay_with(rules)
    return BuiltBox(bay, 1, box, box_parts(bay, 1, box))


def rows(built: BuiltBox, direction: str, tier: int = 1, past: bool = False) -> list[RowFit]:
    found = inside_fit(built, HERON)
    return [one for one in found if (one.direction, one.tier, one.past_ledge) == (direction, tier, past)]


def test_a_row_of_three_by_hand() -> None:
    """Folded, 2.5 thick, liner 3, gap 4: three of 151 with spacings of 2 in 457 + 2 x 4 of clear width.

    At the worst 3 x 0.5 of modules, 2 x 0.3 of liner, 2 x 0.25 of folds, and walls that lean by half a
    degree over 108 + 3 mm: 2 x 0.9687. Together 4.5374; the root of the squares is
    sqrt(3 x 0.25 + 2 x 0.09 + 2 x 0.0625 + 2 x 0.9384) = 1.7122.
    """
    (row,) = rows(snug((3,)), "y")
    assert (row.clear, row.needs) == pytest.approx((465.0, 457.0))
    assert row.ends == ("liner", "liner")
    lean = pytest.approx(0.9687, abs=1e-4)
    assert [(one.what, one.count, one.each) for one in row.sums] == [
        ("module", 3, 0.5),
        ("liner", 2, 0.3),
        ("fold", 2, 0.25),
        ("lean of a wall", 2, lean),
    ]
    assert row.play == pytest.approx(8.0)
    assert row.worst == pytest.approx(8.0 - 4.5374, abs=1e-4)
    assert row.typical == pytest.approx(8.0 - 1.7122, abs=1e-4)


def test_a_welded_row_by_hand() -> None:
    """3 x 0.5 of modules, 2 x 0.3 of liner, 2 x 1 of welds and 0.2 of the floor's cut: 4.3."""
    (row,) = rows(snug((3,), replace(RULES, process="welded")), "y")
    assert row.worst == pytest.approx(8.0 - 4.3)
    assert row.typical == pytest.approx(8.0 - (0.75 + 0.18 + 2.0 + 0.04) ** 0.5)


def test_a_printed_row_by_hand() -> None:
    """Ribs stand where the liner would and are as true as the wall: 3 x 0.5 and 2 x 0.3."""
    (row,) = rows(snug((3,), replace(RULES, process="printed", material="petg")), "y")
    assert row.ends == ("ribs", "ribs")
    assert row.worst == pytest.approx(8.0 - 2.1)


def test_a_tray_of_panels_is_as_true_as_its_welds() -> None:
    """Where the sheet is too small for one blank the floor is welded in, square."""
    small = replace(RULES, fold_shop=FoldShop(sheet=(600.0, 400.0)))
    (row,) = rows(snug((3,), small), "y")
    assert {one.what for one in row.sums} == {"module", "liner", "weld", "cut of the floor"}


def test_upwards_by_hand() -> None:
    """108 and 30 of room in 143 up to the lid: headroom 5. Module 0.5, liner 0.3, two folds of 0.25."""
    (row,) = rows(snug((3,)), "up")
    assert (row.clear, row.needs) == pytest.approx((143.0, 138.0))
    assert row.ends == ("liner", "lid")
    assert row.worst == pytest.approx(5.0 - 1.3)
    (welded,) = rows(snug((3,), replace(RULES, process="welded")), "up")
    assert welded.worst == pytest.approx(5.0 - 0.5 - 0.3 - 2.0 - 0.2)


def test_upwards_under_a_shelf_by_hand() -> None:
    """A shelf lies on a ledge that is welded: 1 mm."""
    built = snug((3, 3))
    (low,), (high,) = rows(built, "up"), rows(built, "up", 2)
    assert (low.ends, high.ends) == (("liner", "shelf"), ("shelf", "lid"))
    assert low.worst == pytest.approx(5.0 - 0.5 - 0.3 - 1.0)
    assert high.worst == pytest.approx(5.0 - 0.5 - 1.0 - 0.5)


def test_higher_walls_lean_further() -> None:
    built = snug((3, 3))
    leans = [
        next(one.each for one in rows(built, "y", tier)[0].sums if one.what == "lean of a wall")
        for tier in (1, 2)
    ]
    assert leans == pytest.approx([111.0 * tan(LEAN), (111.0 + 30.0 + 5.0 + 2.5 + 108.0) * tan(LEAN)])


@pytest.mark.parametrize(
    ("liner", "radius", "end", "takes"),
    [
        (3.0, 2.5, "liner", 3.0),
        (3.0, 8.0, "liner", 3.0),
        (1.0, 8.0, "bend", 8.0 - 15.0**0.5),
        (0.0, 8.0, "bend", 8.0),
        (0.0, 0.0, "sheet", 0.0),
    ],
)
def test_a_bend_at_the_floor(liner: float, radius: float, end: str, takes: float) -> None:
    """A square corner that stands h above the floor meets a bend r - sqrt(r^2 - (r - h)^2) off the wall."""
    shop = FoldShop(weld_bead=0.0)
    built = snug((2,), replace(RULES, liner=liner, bend_radius=radius, gap=9.0, fold_shop=shop))
    (row,) = rows(built, "y")
    inside = built.box.high[1] - built.box.low[1] - 5.0
    assert row.ends == (end, end)
    assert row.clear == pytest.approx(inside - 2.0 * takes)


@pytest.mark.parametrize(
    ("liner", "bead", "end", "takes"),
    [(3.0, 3.0, "liner", 3.0), (1.0, 3.0, "weld bead", 2.0), (0.0, 3.0, "weld bead", 3.0)],
)
def test_a_bead_at_the_floor(liner: float, bead: float, end: str, takes: float) -> None:
    """A bead of legs b reaches b - h in at a height h."""
    rules = replace(RULES, process="welded", liner=liner, gap=9.0, fold_shop=FoldShop(weld_bead=bead))
    built = snug((2,), rules)
    (row,) = rows(built, "y")
    assert row.ends == (end, end)
    assert row.clear == pytest.approx(built.box.high[1] - built.box.low[1] - 5.0 - 2.0 * takes)


def test_a_bead_in_the_upright_corner() -> None:
    """Folded without liner, a gap of 1: the bead of 3 is met 2 off the wall; far from corners it is not."""
    rules = replace(RULES, bend_radius=0.1, liner=0.0, gap=1.0)
    (row,) = rows(snug((2,), rules), "y")
    assert row.ends == ("weld bead", "weld bead")
    assert row.play == pytest.approx(2.0 - 2.0 * 2.0)
    (wide,) = rows(snug((2,), replace(rules, gap=3.5)), "y")
    assert wide.ends == ("bend", "bend")


def test_past_the_ledge() -> None:
    """The bars are 3 + 4 / 2 wide: one module goes straight down between two of them with 2 x 2 to spare.

    The last of three goes down between one of them and its neighbours, pushed to the liner: 4 + 2. Out may be
    0.5 of the module, 2 x 0.25 of folds, 2 x 0.9687 of lean, 2 x 0.2 of bars: 3.3374, more than a gap of 3.
    """
    built = snug((3, 1))
    assert rows(built, "y", past=True)[0].play == pytest.approx(6.0)
    along_x = rows(built, "x", past=True)
    assert [one.play for one in along_x] == pytest.approx([4.0] * 3)
    assert [one.worst for one in along_x] == pytest.approx([4.0 - 3.3374] * 3, abs=1e-4)
    tight = rows(snug((3, 1), replace(RULES, gap=3.0)), "x", past=True)
    assert [one.play for one in tight] == pytest.approx([3.0] * 3)
    assert [one.jams for one in tight] == [True] * 3
    assert rows(built, "y", tier=2, past=True) == []


def test_rows_of_a_staggered_tier() -> None:
    """Two modules side by side and one across their ends: along y the line meets two, or one."""
    stance = {one.length_along: one for one in stances(HERON)}
    level = 265.5
    placed = (
        PlacedModule(stance["x"], (10.0, 10.0, level)),
        PlacedModule(stance["x"], (10.0, 163.0, level)),
        PlacedModule(stance["y"], (367.0, 10.0, level)),
    )
    box = PlacedBox((0.5, 0.5, 260.0), (527.5, 374.5, 410.5), (Tier(level, 138.0, placed),))
    bay = bay_with(RULES)
    built = BuiltBox(bay, 1, box, box_parts(bay, 1, box))
    found = {one.modules: one for one in rows(built, "y")}
    assert set(found) == {placed[:2], placed[2:]}
    # 374 less 5 of sheet and 6 of liner is 363: 302 + 2 or 355 in it
    assert [found[key].play for key in (placed[:2], placed[2:])] == pytest.approx([59.0, 8.0])
    assert {one.modules for one in rows(built, "x")} == {placed[::2], placed[1:], placed[2:]}


def test_a_stepped_tier_stands_on_its_own_floor() -> None:
    """Above the step there is no floor liner, so that the bead of the step floor's weld is met in full."""
    stance = next(one for one in stances(HERON) if one.length_along == "x")
    rules = replace(RULES, shape="stepped", liner=2.0)
    outlines = (rectangle((0.0, 0.0), (372.0, 168.0)), rectangle((0.0, 0.0), (729.0, 168.0)))
    levels = (264.5, 264.5 + 138.0 + 5.0 + 2.5)
    tiers = (
        Tier(levels[0], 138.0, (PlacedModule(stance, (8.5, 8.5, levels[0])),), outlines[0]),
        Tier(
            levels[1],
            138.0,
            tuple(PlacedModule(stance, (x, 8.5, levels[1])) for x in (8.5, 365.5)),
            outlines[1],
        ),
    )
    box = PlacedBox((0.0, 0.0, 260.0), (729.0, 168.0, levels[1] + 145.0), tiers)
    bay = bay_with(rules)
    built = BuiltBox(bay, 1, box, box_parts(bay, 1, box))
    (low,), (high,) = rows(built, "x"), rows(built, "x", 2)
    assert (low.ends, high.ends) == (("liner", "liner"), ("weld bead", "weld bead"))
    assert high.clear == pytest.approx(729.0 - 5.0 - 6.0)


allowed = st.builds(
    Tolerances,
    *(st.floats(0.0, 3.0) for _ in range(4)),
    st.floats(0.0, 2.0),
    *(st.floats(0.0, 3.0) for _ in range(2)),
)
processes = st.sampled_from(["folded", "welded", "printed"])


@settings(max_examples=40)
@given(process=processes, counts=st.sampled_from([(1,), (3,), (2, 2)]), tolerances=allowed)
def test_the_worst_is_never_better_than_the_usual(
    process: Process, counts: tuple[int, ...], tolerances: Tolerances
) -> None:
    for row in inside_fit(snug(counts, replace(RULES, process=process, tolerances=tolerances)), HERON):
        assert row.worst <= row.typical + 1e-9 <= row.play + 2e-9


@settings(max_examples=40)
@given(
    process=processes,
    tolerances=allowed,
    key=st.sampled_from(["module", "liner", "cut", "fold", "fold_angle", "weld", "printed"]),
    more=st.floats(0.0, 2.0),
)
def test_more_tolerance_never_helps(process: Process, tolerances: Tolerances, key: str, more: float) -> None:
    wider = replace(tolerances, **{key: getattr(tolerances, key) + more})
    one, other = (
        inside_fit(snug((2, 1), replace(RULES, process=process, tolerances=each)), HERON)
        for each in (tolerances, wider)
    )

    def kept(fits: tuple[RowFit, ...]) -> list[tuple[float, float]]:
        ordered = sorted(fits, key=lambda row: (row.tier, row.direction, row.past_ledge, row.modules[0].low))
        return [(row.worst, row.typical) for row in ordered]

    for (worst, typical), (less, usual) in zip(kept(one), kept(other), strict=True):
        assert less <= worst + 1e-9
        assert usual <= typical + 1e-9


@settings(max_examples=40)
@given(process=processes, gap=st.floats(0.0, 2.0), headroom=st.floats(0.0, 1.5))
def test_the_remedy_lets_every_row_in(process: Process, gap: float, headroom: float) -> None:
    rules = replace(RULES, process=process, gap=gap, headroom=headroom, fold_shop=FoldShop(weld_bead=0.0))
    for _ in range(3):
        for row in inside_fit(snug((2,), rules), HERON):
            if told := remedy(row, rules):
                key, value = told.removesuffix(" would do").removeprefix("box.").split(" = ")
                rules = replace(rules, **{key: max(float(value), getattr(rules, key))})
    assert not any(row.jams for row in inside_fit(snug((2,), rules), HERON))


def test_drawn_lots_agree_with_the_root_of_the_squares() -> None:
    """40,000 boxes drawn at random, wall by wall and module by module, errors of a third as one sigma.

    Each wall stands where its bend puts it and leans by its angle; its liner is as thick as it is. Three
    sigmas of the play found are what the row's sums say, within 3 per cent. Independent: a drawn box.
    """
    boxes = 40_000
    drawn = np.random.default_rng(5)

    def out(most: float, *shape: int) -> "np.ndarray[tuple[int, ...], np.dtype[np.float64]]":
        return drawn.normal(0.0, most / 3.0, (boxes, *shape))

    built = snug((3,))
    (row,) = rows(built, "y")
    inside = built.box.high[1] - built.box.low[1] - 2.0 * 2.5
    top = 3.0 + 108.0
    faces = []
    for wall, inwards in ((0.0, 1.0), (inside, -1.0)):
        foot = wall + out(0.25)
        lean = top * np.tan(np.radians(out(0.5)))
        faces.append(foot + inwards * (lean + 3.0 + out(0.3)))
    widths = (151.0 + out(0.5, 3)).sum(axis=1)
    play = faces[1] - faces[0] - widths - 2.0 * 2.0
    assert play.mean() == pytest.approx(row.play, abs=0.02)
    assert 3.0 * play.std() == pytest.approx(row.play - row.typical, rel=0.03)
    assert (play < row.typical).mean() == pytest.approx(0.00135, abs=0.0008)
    assert (play < row.worst).sum() == 0


def test_a_row_without_errors_keeps_its_play() -> None:
    exact = replace(RULES, tolerances=Tolerances(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0))
    for row in inside_fit(snug((2, 2), exact), HERON):
        assert row.sums == ()
        assert row.worst == row.typical == row.play


def test_a_bend_reaches_in_nowhere_above_itself() -> None:
    assert bend_reaches(2.5, 3.0) == bend_reaches(0.0, 0.0) == 0.0
