"""What the check tells, against cars made odd on purpose."""

from dataclasses import replace
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.bay import Bay, Block, Cylinder, Keepout, Mount, Opening, Shell
from boxfit.car import Car, CornerWeights, Limits, PointMass
from boxfit.report.check_text import check_text
from boxfit.report.odd import odd_things
from boxfit.report.room import keepout_litres, surveyed_as, surveyed_litres, usable_litres
from boxfit.workshop import FoldedK, FoldShop
from tests.report.samples import RULES, SAMPLES, bay, many, rectangle, roadster
from tests.report.shells import ball, scanned


def changed(**changes: object) -> Car:
    """The roadster with its front bay changed."""
    car, _, _ = roadster()
    return replace(car, bays=(replace(car.bays[0], **changes), car.bays[1]))  # type: ignore[arg-type]


def scanned_car() -> Car:
    """The roadster with a scanned boot alone."""
    return replace(roadster()[0], bays=(scanned(),))


def test_a_scan_is_told_with_all_that_was_done_to_it() -> None:
    """By hand: (560 + 410) / 2 x 370 x 960 mm is 172.3 litres; a ball of 70 holds 1.4."""
    words = check_text(scanned_car()).replace("\n    ", " ")
    for expected in (
        "scanned boot: survey: 172.3 litres in 560 x 960 x 370 mm",
        "scanned boot: survey: surface of 12 triangles, read as the room's own bounds, the true surface "
        "within 0.4 mm of them",
        "scanned boot: survey: 3 stray islands of at most 8 mm left out",
        "scanned boot: survey: 2 holes of at most 12 mm bridged",
        "scanned boot: survey: litres not worked out after 13.4 mm at every surface (3 of it tolerance), "
        "keep-outs not taken off",
        'scanned boot: keepout "boot hinge": 1.4 litres, 4,224 triangles within 140 x 140 x 140 mm, '
        "keeps 28 mm, moving",
        "keeps 33 mm, hot, negotiable",
        "keeps 13 mm, sharp edge",
    ):
        assert expected in words
    assert usable_litres(scanned()) is None
    assert max(map(len, check_text(scanned_car()).split("\n"))) <= 100


def test_how_a_prism_was_surveyed_is_told() -> None:
    assert "front bay: survey: prism of 4 corners\n" in check_text(roadster()[0])


def test_a_body_is_told_as_one() -> None:
    boot = scanned()
    assert isinstance(boot.room, Shell)
    body = replace(boot, room=replace(boot.room, reads="body", surface=replace(boot.room.surface, off=0.0)))
    assert surveyed_as(body)[0] == "surface of 12 triangles, read as metal round the room"


@pytest.mark.parametrize(
    ("reason", "distance", "least"),
    [
        ("moving", 27.9, 25.0),
        ("hot", 52.9, 50.0),
        ("moving", 28.0, 0.0),
        ("hot", 53.0, 0.0),
        ("sharp", 3.0, 0.0),
    ],
)
def test_too_little_room_for_what_moves_or_gets_hot_is_told(
    reason: str, distance: float, least: float
) -> None:
    """The survey's tolerance of 3 is no clearance."""
    near = Keepout("near", Block((-300.0, 0.0, 300.0), (-200.0, 90.0, 400.0)), distance, reason=reason)
    words = f"{distance - 3.0:g} mm is less than the usual {least:g} to what is {reason} (common practice)"
    told = odd_things(changed(keepouts=(near,)))
    assert told == ((f'front bay: keepout "near": clearance: {words}',) if least else ())


def test_a_keep_out_of_triangles_outside_the_bay_is_told() -> None:
    far = Keepout("far", ball((0.0, 0.0, 900.0), 50.0), 13.0)
    assert odd_things(changed(keepouts=(far,))) == ('front bay: keepout "far": lies wholly outside the bay',)


def test_an_opening_beside_a_room_of_any_shape_is_told() -> None:
    car = scanned_car()
    off = Opening("left", rectangle((-2540.0, 600.0), (-2480.0, 690.0)))
    told = odd_things(replace(car, bays=(replace(car.bays[0], opening=off, keepouts=()),)))
    assert told == ("scanned boot: opening.outline: does not overlap the bay; no box can come in",)


@pytest.mark.parametrize("name", SAMPLES)
def test_check_is_narrow_and_starts_with_places(name: str) -> None:
    car, _, _ = SAMPLES[name]()
    lines = check_text(car).split("\n")
    assert max(map(len, lines)) <= 100
    places = ("car.toml: ", "    ", "missing or odd", "nothing missing", *(f"{b.name}: " for b in car.bays))
    assert all(line == "" or line.startswith(places) for line in lines)


def test_check_of_a_complete_car() -> None:
    """By hand: (800 + 680) / 2 x 670 x 380 mm is 188.4 litres; 300 x 100 x 230 mm is 6.9 litres."""
    words = check_text(roadster()[0])
    assert "front bay: survey: 188.4 litres in 670 x 800 x 380 mm" in words
    assert 'rear bay: keepout "left wheel arch": 6.9 litres, block 300 x 100 x 230 mm, keeps 13 mm' in words
    assert "car.toml: weighed: 475.0 kg stripped, 254.5 front, 220.5 rear, front share 0.536" in words
    assert words.endswith("nothing missing, nothing odd\n")


@given(st.floats(100, 2000), st.floats(100, 2000), st.floats(100, 800), st.floats(0, 49))
def test_litres_of_a_square_bay(length: float, width: float, height: float, distance: float) -> None:
    plain = replace(bay("b", rectangle((0.0, 0.0), (length, width)), (0.0, height)), distance=distance)
    assert surveyed_litres(plain) == pytest.approx(length * width * height / 1e6)
    inner = (length - 2 * distance) * (width - 2 * distance) * (height - 2 * distance) / 1e6
    assert usable_litres(plain) == pytest.approx(inner, rel=1e-6)


def test_what_the_shops_bring_is_told() -> None:
    rules = replace(RULES, gasket_width=8.0, gasket_thickness=4.0, cover_material="stainless-1.4301")
    words = check_text(changed(box=replace(rules, fold_shop=FoldShop(k_table=(FoldedK(2.5, 2.5, 0.41),)))))
    assert "front bay: box: gasket 8 x 4 mm, 2.7 under the lid\n" in words
    assert "front bay: box: cover plate of stainless-1.4301\n" in words
    assert "front bay: box: sheet 2500 x 1250, folds up to 2500 mm, K 0.41 of the shop's own\n" in words
    assert "front bay: box: sheet 2500 x 1250, folds up to 2500 mm, K of DIN 6935\n" in check_text(changed())
    printed = check_text(changed(box=replace(RULES, process="printed", material="petg")))
    assert "front bay: box: bed 250 x 250 x 250, joints with 0.2 mm of air each side\n" in printed


def test_mounts_are_told() -> None:
    at = (150.0, 320.0, 250.0)
    mounts = (Mount("new", at, "up", 8.0, 1.2, True), Mount("old", at, "left", 10.0, 2.0, False))
    words = check_text(changed(mounts=mounts))
    assert 'front bay: mount "new": M8 in 1.2 mm of body that looks up, to be drilled\n' in words
    assert 'front bay: mount "old": M10 in 2 mm of body that looks left, hole there already\n' in words


def test_litres_round_an_inward_corner() -> None:
    """By hand: two arms of 180 and the arc-bounded patch at the inward corner, 100 high."""
    corner = ((0.0, 0.0), (400.0, 0.0), (400.0, 200.0), (200.0, 200.0), (200.0, 400.0), (0.0, 400.0))
    ell = replace(bay("ell", corner, (0.0, 120.0)), distance=10.0)
    arms = 380.0 * 180.0 + 180.0 * 200.0
    missing_corner = 10.0 * 10.0 * (1 - pi / 4)
    assert usable_litres(ell) == pytest.approx((arms + missing_corner) * 100.0 / 1e6, rel=1e-4)


def test_bay_lower_than_its_distances_holds_nothing() -> None:
    assert (
        usable_litres(replace(bay("b", rectangle((0.0, 0.0), (500.0, 500.0)), (0.0, 20.0)), distance=13.0))
        == 0.0
    )


def test_litres_of_a_bar() -> None:
    bar = Keepout("bar", Cylinder((0.0, 0.0, 0.0), (300.0, 400.0, 0.0), 100.0), 10.0)
    assert keepout_litres(bar) == pytest.approx(pi / 4 * 100**2 * 500 / 1e6)


def test_bare_car_is_told_what_it_lacks() -> None:
    found = "\n".join(odd_things(many()[0]))
    for place in ("[weighed]", "[target]", "limits.front_axle", "limits.gross", "[electrics]", "[[carried]]"):
        assert f"car.toml: {place}: " in found


def test_height_of_mass_is_missed_only_where_weighed() -> None:
    car, _, _ = roadster()
    found = odd_things(replace(car, weighed=CornerWeights(128.0, 126.5, 109.0, 111.5)))
    assert found == (
        "car.toml: weighed.height_of_mass: missing; the height of the balance point stays unknown",
    )


def test_plate_silent_on_one_axle() -> None:
    car, _, _ = roadster()
    assert odd_things(replace(car, limits=Limits(480.0, None, 950.0))) == (
        "car.toml: limits.rear_axle: missing; no limit is kept",
    )


ODD: list[tuple[dict[str, object], str]] = [
    ({"tolerance": 0.0}, "front bay: survey.tolerance: 0; no survey is that good"),
    ({"opening": None}, "front bay: [opening]: missing; whether a box can be brought in is not asked"),
    (
        {"opening": Opening("up", rectangle((300.0, 0.0), (400.0, 100.0)))},
        "front bay: opening.outline: does not overlap the bay; no box can come in",
    ),
    (
        {"opening": Opening("rear", rectangle((-100.0, 0.0), (100.0, 200.0)))},
        "front bay: opening.outline: does not overlap the bay; no box can come in",
    ),
    (
        {"opening": Opening("left", rectangle((300.0, 300.0), (400.0, 400.0)))},
        "front bay: opening.outline: does not overlap the bay; no box can come in",
    ),
    (
        {"box": replace(RULES, clearance=6.0)},
        "front bay: box.clearance: 6 mm is less than the usual 10 (common practice)",
    ),
    (
        {"box": replace(RULES, bend_radius=8.0)},
        "front bay: box.gap: 4 mm is less than bend_radius - liner; the lowest tier keeps 5",
    ),
    (
        {"box": replace(RULES, process="welded", fold_shop=FoldShop(weld_bead=7.5))},
        "front bay: box.gap: 4 mm is less than weld bead - liner; the lowest tier keeps 4.5",
    ),
    (
        {"box": replace(RULES, flange=9.0)},
        "front bay: box.flange: must be 0 or not below 10 (3 t + r, the shortest that a brake holds) (got 9)"
        "; try: box.flange = 10; build refuses it",
    ),
    (
        {"box": replace(RULES, process="printed")},
        "front bay: box.material: aluminium-5754 is seldom printed; "
        'try "petg" or "abs", or box.process = "folded"',
    ),
    (
        {"box": replace(RULES, asked=False)},
        "front bay: [box]: missing; modules are placed without a box and nothing can be built",
    ),
    (
        {"keepouts": (Keepout("far post", Block((0.0, 0.0, 700.0), (50.0, 50.0, 900.0)), 13.0),)},
        'front bay: keepout "far post": lies wholly outside the bay',
    ),
]


@pytest.mark.parametrize(
    ("changes", "told"), ODD, ids=[told.split(":")[1].strip() + str(k) for k, (_, told) in enumerate(ODD)]
)
def test_odd_bay_is_told(changes: dict[str, object], told: str) -> None:
    assert odd_things(changed(**changes)) == (told,)


def test_welded_box_does_not_ask_for_the_bend() -> None:
    assert odd_things(changed(box=replace(RULES, process="welded", bend_radius=8.0))) == ()


def test_low_and_far_bays_are_told() -> None:
    car, _, _ = roadster()
    low = bay("low", rectangle((-900.0, -200.0), (-500.0, 200.0)), (90.0, 300.0), opening=Opening("up"))
    far = bay("far", rectangle((1500.0, -200.0), (1900.0, 200.0)), (290.0, 500.0), opening=Opening("up"))
    assert odd_things(replace(car, bays=(low, far))) == (
        "low: survey.floor: 90 mm above ground; cars keep 120 clear",
        "far: survey: lies far outside the car; is x counted from the front axle?",
    )


def test_misplaced_mass_and_rare_share_are_told() -> None:
    car, _, _ = roadster()
    heater = PointMass("heater", 5.0, (-310.0, 0.0, 3600.0))
    front_heavy = CornerWeights(200.0, 200.0, 50.0, 50.0, 400.0)
    found = odd_things(replace(car, fitted=(heater,), weighed=front_heavy))
    assert found == (
        "car.toml: weighed: front share 0.80 of the stripped car is rare; wheels mixed up?",
        'car.toml: fitted "heater": at (-310, 0, 3600) lies far outside the car',
    )


def test_a_name_that_cannot_be_drawn_is_told() -> None:
    told = odd_things(changed(name="Möwe 车 a 车"))
    assert "Möwe 车 a 车: name: drawings have no sign for 车; frames stand in their place" in told


def test_bays_are_never_changed_by_telling() -> None:
    car, _, _ = roadster()
    before: tuple[Bay, ...] = car.bays
    check_text(car)
    assert car.bays == before
