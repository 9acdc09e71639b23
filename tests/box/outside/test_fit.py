"""Fittings by rule: all that is placed is clear of everything, what is not is told, none comes by chance."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Bay, Block, Cylinder, Keepout, Mount, Opening, Prism
from boxfit.box.build import box_parts
from boxfit.box.cutouts import cutouts_astray
from boxfit.box.fitting import Fittings
from boxfit.box.fittings_json import fittings_as_data, fittings_bytes
from boxfit.box.outside.fit import mounts_out_of_reach, outside_fittings, with_fittings
from boxfit.box.outside.standing import Standing
from boxfit.box.whole import BuiltBox, built_boxes
from boxfit.car import Car, PointMass
from boxfit.files.layout_json import layout_as_data
from boxfit.jobs.fittings import out_of_reach
from boxfit.judge.fittings import judge_fittings
from boxfit.layout import Layout
from boxfit.module import Current
from tests.box.samples import HERON, car_and_layout

CAR, LAYOUT = car_and_layout()
MODULE = replace(HERON, current=Current(100.0, 250.0))
FRONT, REAR = CAR.bays
OPEN = replace(CAR, bays=tuple(replace(bay, opening=Opening("up")) for bay in CAR.bays))


HELD = [
    Standing(bay, placed.boxes[0], box_parts(bay, 1, placed.boxes[0]))
    for bay, placed in zip(CAR.bays, LAYOUT.bays, strict=True)
]
"""Boxes as they stand before anything is fixed to them outside."""


def with_front(**changes: object) -> Car:
    return replace(OPEN, bays=(replace(OPEN.bays[0], **changes), OPEN.bays[1]))  # type: ignore[arg-type]


def judged(car: Car, built: tuple[BuiltBox, ...], layout: Layout = LAYOUT) -> object:
    return judge_fittings(fittings_as_data(built), car, MODULE, layout_as_data(layout))


def kinds(fittings: Fittings) -> list[str]:
    return sorted(one.kind for one in fittings.bought)


def notes_of(built: tuple[BuiltBox, ...]) -> str:
    return "\n".join(note for one in built for note in one.parts.fittings.notes)


def test_every_box_is_fitted_and_judged_clear() -> None:
    built = built_boxes(OPEN, MODULE, LAYOUT)
    assert judged(OPEN, built) == ()
    for one in built:
        assert cutouts_astray(one.parts.tray) == ()
        assert {"breather", "drain"} <= set(kinds(one.parts.fittings))
    plugs = [kind for one in built for kind in kinds(one.parts.fittings) if kind == "service disconnect"]
    assert len(plugs) <= 1
    assert fittings_bytes(built) == fittings_bytes(built_boxes(OPEN, MODULE, LAYOUT))


def test_no_note_is_told_twice() -> None:
    for car in (OPEN, with_front(mounts=(mount((-200.0, -230.0, 260.0)), mount((-100.0, 230.0, 260.0))))):
        told = [note for one in built_boxes(car, MODULE, LAYOUT) for note in one.parts.fittings.notes]
        assert len(told) == len(set(told))


def test_cables_lead_along_a_chain_from_the_inverter() -> None:
    inverter = PointMass("inverter and charger", 20.0, (-2600.0, 0.0, 500.0))
    car = replace(OPEN, fitted=(inverter,))
    front, rear = (one.parts.fittings for one in built_boxes(car, MODULE, LAYOUT))
    leads = {one.name for one in rear.bought if "to inverter" in one.name}
    told = [note for note in rear.notes if "inverter" in note]
    assert leads or told
    assert not [one for one in front.bought if "inverter" in one.name]
    assert not [note for note in front.notes if "inverter" in note]


def test_without_hold_downs_glands_take_the_room_above_a_missing_module() -> None:
    """One module of the upper tier taken out: glands go where it stood, two for the one link."""
    box = LAYOUT.bays[0].boxes[0]
    low, high = box.tiers
    thinned = replace(box, tiers=(low, replace(high, modules=high.modules[:1])))
    bays = (replace(LAYOUT.bays[0], boxes=(thinned,)), LAYOUT.bays[1])
    layout = replace(LAYOUT, bays=bays, count=8)
    parts = [replace(one.parts, fittings=Fittings()) for one in built_boxes(OPEN, MODULE, layout)]
    boxes = [box for bay in layout.bays for box in bay.boxes]
    standing = [Standing(*each) for each in zip(OPEN.bays, boxes, parts, strict=True)]
    found = outside_fittings(OPEN, MODULE, layout, standing)[0].fittings
    assert kinds(found).count("cable gland") >= 3
    assert "service disconnect" in kinds(found)
    level = high.stands_on
    assert all(one.at[2] > level - 40.0 for one in found.bought if one.kind == "cable gland")


def test_a_breather_never_looks_towards_the_people() -> None:
    front, rear = (one.parts.fittings for one in built_boxes(OPEN, MODULE, LAYOUT))
    assert [one.looks for one in front.bought if one.kind == "breather"] == ["front"]
    # 20 mm behind the rear box are too little, so that a side has to do
    assert [one.looks for one in rear.bought if one.kind == "breather"] == ["left"]


def test_a_drain_sits_in_the_lowest_floor() -> None:
    for one in built_boxes(OPEN, MODULE, LAYOUT):
        (drain,) = (each for each in one.parts.fittings.bought if each.kind == "drain")
        assert drain.at[2] == one.box.low[2]


def test_no_drain_where_nothing_is_free_below() -> None:
    plate = Keepout("plate", Block((-500.0, -500.0, 200.0), (500.0, 500.0, 274.0)), 5.0)
    built = built_boxes(with_front(keepouts=(plate,)), MODULE, LAYOUT)
    assert "drain" not in kinds(built[0].parts.fittings)
    assert "no drain: nowhere are 8 mm free below" in notes_of(built)


def mount(at: tuple[float, float, float], faces: str = "up", thick: float = 1.0) -> Mount:
    return Mount("place", at, faces, 8.0, thick, True)  # type: ignore[arg-type]


def feet(built: tuple[BuiltBox, ...]) -> list[str]:
    return [
        strip.kind
        for strip in built[0].parts.fittings.strips
        if strip.kind not in ("hold-down", "hold-down bracket", "lifting lug") and "housing" not in strip.kind
    ]


@pytest.mark.parametrize(
    ("place", "strips"),
    [
        (mount((-200.0, -230.0, 260.0)), ["foot", "spreading plate"]),
        (mount((-200.0, -230.0, 260.0), thick=2.0), ["foot"]),
        (mount((-150.0, 300.0, 400.0), "right"), ["foot", "spreading plate"]),
        (mount((-380.0, 0.0, 400.0), "front"), ["foot", "spreading plate"]),
    ],
)
def test_a_mount_in_reach_gets_its_foot(place: Mount, strips: list[str]) -> None:
    car = with_front(mounts=(place,))
    built = built_boxes(car, MODULE, LAYOUT)
    assert feet(built) == strips
    assert judged(car, built) == ()
    assert "holes drilled in the body: place 9 mm at" in notes_of(built)
    assert "no [[mount]] given for front bay" not in notes_of(built)


def test_without_mounts_a_note_asks_for_them() -> None:
    assert "no [[mount]] given for front bay: feet are not drawn" in notes_of(
        built_boxes(OPEN, MODULE, LAYOUT)
    )


def test_a_mount_out_of_reach_is_told_with_a_remedy() -> None:
    car = with_front(mounts=(mount((450.0, 450.0, 200.0)),))
    built = built_boxes(car, MODULE, LAYOUT)
    assert feet(built) == []
    (text,) = out_of_reach(car, LAYOUT, built)
    assert "front bay: mount[1]: place: no wall of a box is within 150 mm" in text
    assert "try: give a place that a wall of a box stands over or beside" in text
    spans = zip("xyz", built[0].box.low, built[0].box.high, strict=True)
    stands = ", ".join(f"{axis} {low:.0f} to {high:.0f}" for axis, low, high in spans)
    assert f"front bay box 1, held by fewer than 2 feet, stands at {stands}" in text


def test_a_mount_left_over_is_no_fault_where_others_hold_the_box() -> None:
    near = (mount((-200.0, -230.0, 260.0)), mount((-100.0, 230.0, 260.0)), mount((450.0, 450.0, 200.0)))
    car = with_front(mounts=tuple(replace(one, name=f"place {k}") for k, one in enumerate(near, 1)))
    built = built_boxes(car, MODULE, LAYOUT)
    assert mounts_out_of_reach(car, LAYOUT, [one.parts for one in built]) == ()
    assert "place 3 is left unused: no wall of a box" in notes_of(built)


def test_a_foot_that_does_not_pass_the_opening_is_screwed_on_inside() -> None:
    tight = ((280.0, -190.0), (280.0, 190.0), (-380.0, 190.0), (-380.0, -190.0))
    car = with_front(mounts=(mount((-200.0, -260.0, 260.0)),), opening=Opening("up", tight))
    built = built_boxes(car, MODULE, LAYOUT)
    holes = [one for one in built[0].parts.tray.cutouts if one.what.startswith("screw of foot")]
    assert [one.diameter for one in holes] == [6.6, 6.6]
    assert judged(car, built) == ()


keepouts = st.one_of(
    st.builds(
        lambda x, y, z, a, b, c: Block((x, y, z), (x + a, y + b, z + c)),
        st.integers(-480, 400),
        st.integers(-480, 400),
        st.integers(210, 800),
        *[st.integers(10, 80)] * 3,
    ),
    st.builds(
        lambda x, y, z, a, b, c, wide: Cylinder((x, y, z), (a, b, c), wide),
        *[st.integers(-480, -400), st.integers(-480, 480), st.integers(230, 850)],
        *[st.integers(400, 480), st.integers(-480, 480), st.integers(230, 850)],
        st.integers(10, 60),
    ),
)


@given(st.lists(keepouts, min_size=1, max_size=4), st.sampled_from(["up", "front", "left", "down"]))
@settings(max_examples=15)
def test_whatever_stands_round_a_box_its_fittings_are_judged_clear(
    solids: list[Block | Cylinder], way: str
) -> None:
    """Only fittings are asked here: whether the box itself could stand there does not matter."""
    stays = tuple(Keepout(f"thing {k}", solid, 10.0) for k, solid in enumerate(solids))
    car = with_front(keepouts=stays, opening=Opening(way))  # type: ignore[arg-type]
    standing = [replace(one, bay=bay) for one, bay in zip(HELD, car.bays, strict=True)]
    found = outside_fittings(car, MODULE, LAYOUT, standing)
    built = tuple(
        BuiltBox(one.bay, 1, one.box, with_fittings(one.parts, own.fittings))
        for one, own in zip(standing, found, strict=True)
    )
    assert judged(car, built) == ()


def test_a_narrow_bay_leaves_out_what_has_no_room_and_says_so() -> None:
    x, y, a, b = -330.0, -220.0, 215.0, 220.0
    narrow = Prism(((a, y), (a, b), (x, b), (x, y)), 265.0, 650.0)
    car = replace(OPEN, bays=(Bay("front bay", narrow, 3.0, 13.0, FRONT.box), REAR))
    built = built_boxes(car, MODULE, LAYOUT)
    assert judged(car, built) == ()
    assert "no room for the main cables" in notes_of(built)
    assert "lacks" in notes_of(built)
