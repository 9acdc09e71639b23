"""What can be eased, by its name, and what the car is like with it eased."""

from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Bay, Block, Cylinder, Keepout, Opening, Prism
from boxfit.car import Car, CornerWeights, Limits, Target, Window
from boxfit.search.easing import MOST_MOVED, Easing, easings
from tests.box.samples import RULES
from tests.search.strategies import cars
from tests.surfaces import as_shell, block_surface, room_of

SQUARE = ((0.0, 0.0), (500.0, 0.0), (500.0, 400.0), (0.0, 400.0))
PLAIN = Bay("bay", Prism(SQUARE, 200.0, 500.0), 3.0, 13.0, RULES)
ALONE = Car("car", "car", 2200.0, 1200.0, 1200.0, (PLAIN,))


def named(car: Car, what: str) -> Easing:
    return next(easing for easing in easings(car) if easing.what == what)


def with_bay(**changed: object) -> Car:
    return replace(ALONE, bays=(replace(PLAIN, **changed),))  # type: ignore[arg-type]


def eased(car: Car, what: str, by: float) -> Bay:
    return named(car, what).change(car, by).bays[0]


def test_what_the_files_do_not_say_is_not_listed() -> None:
    rules = [
        "clearance",
        "survey tolerance",
        "liner",
        "headroom",
        "gap",
        "thickness",
        "flange",
        "tiers",
        "boxes",
    ]
    faces = ["floor", "top", "right wall", "front wall", "left wall", "rear wall"]
    assert [easing.what for easing in easings(ALONE)] == [*faces, *rules]
    bare = replace(RULES, clearance=0.0, liner=0.0, headroom=0.0, gap=0.0, flange=0.0, asked=False)
    unasked = with_bay(box=bare, tolerance=0.0, distance=0.0)
    assert [easing.what for easing in easings(unasked)] == faces


def test_everything_the_files_say_is_listed() -> None:
    pipe = Keepout("pipe", Cylinder((0.0, 0.0, 200.0), (90.0, 0.0, 200.0), 10.0), 18.0, negotiable=True)
    car = replace(
        with_bay(keepouts=(pipe,), opening=Opening("up", SQUARE)),
        weighed=CornerWeights(150.0, 150.0, 150.0, 150.0),
        target=Target(0.5, 0.01), limits=Limits(300.0, None, 700.0),
        windows=(Window("inverter", 80.0, 160.0),),
    )  # fmt: skip
    found = {easing.what: easing for easing in easings(car)}
    assert {
        "pipe", "pipe, clearance", "opening", "opening, every side of its outline", "target, tolerance",
        "target, moved to the front", "target, moved to the rear", "front axle limit", "gross limit",
        "inverter window, low end", "inverter window, high end",
    } < set(found)  # fmt: skip
    assert "rear axle limit" not in found
    assert [what for what, easing in found.items() if easing.negotiable] == ["pipe"]
    assert (found["pipe, clearance"].now, found["pipe, clearance"].becomes(4.0)) == (15.0, 11.0)
    assert found["pipe"].change(car, 1.0).bays[0].keepouts == ()
    assert found["opening"].change(car, 1.0).bays[0].opening is None


def test_walls_are_named_as_the_trade_names_them() -> None:
    """x looks forward and y to the left; two that look the same way are told apart by where they are."""
    outline = ((0.0, 0.0), (500.0, 0.0), (500.0, 250.0), (300.0, 250.0), (300.0, 400.0), (0.0, 400.0))
    found = [easing.what for easing in easings(with_bay(room=Prism(outline, 200.0, 500.0)))]
    assert found[2:8] == [
        "right wall",
        "front wall, y 0 to 250",
        "left wall, x 300 to 500",
        "front wall, y 250 to 400",
        "left wall, x 0 to 300",
        "rear wall",
    ]


def test_an_outline_of_very_many_sides_is_moved_by_walls() -> None:
    round_room = shapely.orient_polygons(shapely.Point(0.0, 0.0).buffer(300.0, quad_segs=8))
    outline = tuple((float(x), float(y)) for x, y in round_room.exterior.coords[:-1])
    car = with_bay(room=Prism(outline, 200.0, 500.0))
    walls = [easing.what for easing in easings(car) if "wall" in easing.what]
    assert sorted(walls) == ["front wall", "left wall", "rear wall", "right wall"]
    room = eased(car, "left wall", 40.0).room
    assert max(y for _, y in room.outline) == pytest.approx(340.0)
    assert shapely.Polygon(room.outline).area - round_room.area == pytest.approx(40.0 * 424.264, rel=0.02)


@pytest.mark.parametrize(
    ("what", "bounds"),
    [
        ("front wall", (0.0, 0.0, 520.0, 400.0)),
        ("rear wall", (-20.0, 0.0, 500.0, 400.0)),
        ("left wall", (0.0, 0.0, 500.0, 420.0)),
        ("right wall", (0.0, -20.0, 500.0, 400.0)),
    ],
)
def test_a_wall_is_moved_outwards(what: str, bounds: tuple[float, ...]) -> None:
    room = eased(ALONE, what, 20.0).room
    assert shapely.Polygon(room.outline).equals(shapely.box(*bounds))
    assert len(room.outline) == 4


def test_floor_and_top_are_moved_apart() -> None:
    assert eased(ALONE, "floor", 20.0).room == Prism(SQUARE, 180.0, 500.0)
    assert eased(ALONE, "top", 20.0).room == Prism(SQUARE, 200.0, 520.0)


def test_clearance_is_eased_from_what_stays_as_well() -> None:
    """Not from what keeps a clearance of its own."""
    block = Block((0.0, 0.0, 200.0), (50.0, 50.0, 300.0))
    car = with_bay(keepouts=(Keepout("plain", block, 13.0), Keepout("hot", block, 28.0)))
    bay = eased(car, "clearance", 4.0)
    assert (bay.distance, bay.box.clearance, bay.tolerance) == (9.0, 6.0, 3.0)
    assert [keepout.distance for keepout in bay.keepouts] == [9.0, 28.0]
    surveyed = eased(car, "survey tolerance", 2.0)
    assert (surveyed.distance, surveyed.box.clearance, surveyed.tolerance) == (11.0, 10.0, 1.0)
    assert [keepout.distance for keepout in surveyed.keepouts] == [11.0, 26.0]


def test_what_several_bays_have_is_also_eased_in_all_of_them() -> None:
    car = replace(ALONE, bays=(PLAIN, replace(PLAIN, name="other", box=replace(RULES, flange=18.0))))
    found = {easing.what: easing for easing in easings(car) if easing.bay == "every bay"}
    assert (found["clearance"].now, found["flange"].now, found["flange"].most) == (10.0, None, 7.0)
    bays = found["flange"].change(car, 5.0).bays
    assert [bay.box.flange for bay in bays] == [17.0, 15.0]  # no further than a flange can be narrow


def test_a_slice_carries_along_what_stays_and_the_opening() -> None:
    block = Block((300.0, 50.0, 200.0), (350.0, 90.0, 260.0))
    kept = (Keepout("block", block, 13.0), Keepout("skin", block_surface(block), 13.0))
    bay = as_shell(replace(PLAIN, opening=Opening("up", SQUARE)))
    car = replace(ALONE, bays=(replace(bay, keepouts=kept),))
    after = eased(car, "room made longer by a slice", 30.0)
    room = room_of(after)
    assert (room.low, room.high) == ((-15.0, 0.0, 200.0), (515.0, 400.0, 500.0))
    assert (room.surface.low, room.surface.high) == (room.low, room.high)
    assert room.volume == pytest.approx(530.0 * 400.0 * 300.0)
    plain, skin = (keepout.solid for keepout in after.keepouts)
    assert plain == Block((315.0, 50.0, 200.0), (365.0, 90.0, 260.0))
    assert not isinstance(skin, Cylinder)
    assert (skin.low, skin.high) == ((315.0, 50.0, 200.0), (365.0, 90.0, 260.0))
    assert after.opening is not None
    assert after.opening.outline is not None
    assert shapely.Polygon(after.opening.outline).bounds == (-15.0, 0.0, 515.0, 400.0)
    wider = eased(car, "room made wider by a slice", 30.0)
    assert shapely.Polygon(wider.room.outline).bounds == (0.0, -15.0, 500.0, 415.0)


@settings(max_examples=40)
@given(cars(), st.floats(0.1, 1.0))
def test_easing_never_takes_room_or_asks_more(car: Car, part: float) -> None:
    for easing in easings(car):
        whole = easing.unit in ("tiers", "boxes", "away")
        after = easing.change(car, 1.0 if whole else round(part * easing.most, 3))
        assert after != car
        for old, new in zip(car.bays, after.bays, strict=True):
            assert shapely.Polygon(new.room.outline).buffer(1e-6).covers(shapely.Polygon(old.room.outline))
            assert new.room.floor <= old.room.floor
            assert new.room.top >= old.room.top
            assert 0.0 <= new.tolerance <= new.distance <= old.distance
            assert len(new.keepouts) <= len(old.keepouts)
            assert all(keepout.distance >= new.tolerance for keepout in new.keepouts)
            assert max(new.room.top - old.room.top, old.room.floor - new.room.floor) <= MOST_MOVED
