"""Strips as solids: as heavy as the closed form, as large as told, holes where they are told."""

from dataclasses import replace
from math import pi

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from boxfit.box.fitting import DIRECTIONS, Looks, Strip, StripHole
from boxfit.box.strip_legs import strip_blocks
from boxfit.box.strip_mass import strip_mass
from boxfit.solid.mesh import mesh_of
from boxfit.solid.strip import strip_shape
from boxfit.solid.weighed import solid_properties

DENSITY = 2660e-9
CHANNEL = Strip(
    kind="hold-down",
    name="channel",
    material="aluminium-5754",
    thickness=2.5,
    radius=2.5,
    start=(10.0, -20.0, 30.0),
    along="front",
    width=100.0,
    legs=(("down", 22.0), ("left", 26.0), ("up", 18.0)),
    inwards="left",
    holes=(StripHole(0, 20.0, 8.0, 6.6), StripHole(1, 30.0, 13.0, 6.6), StripHole(2, 80.0, 12.0, 5.0)),
)


def opposite(looks: Looks) -> Looks:
    """The other way."""
    back = tuple(-part + 0.0 for part in DIRECTIONS[looks])
    return next(word for word, way in DIRECTIONS.items() if way == back)


@st.composite
def strips(draw: st.DrawFn) -> Strip:
    """Plates, angles and channels turned any way, with a hole in the middle of each leg."""
    first = draw(st.sampled_from(sorted(DIRECTIONS)))
    square = [word for word in sorted(DIRECTIONS) if word not in (first, opposite(first))]
    inwards = draw(st.sampled_from(square))
    along = draw(st.sampled_from([word for word in square if word not in (inwards, opposite(inwards))]))
    thickness, radius = draw(st.integers(10, 40)) / 10.0, draw(st.integers(0, 50)) / 10.0
    least = 2.0 * (thickness + radius) + 8.0
    ways = (first, inwards, opposite(first))[: draw(st.integers(1, 3))]
    legs = tuple((way, least + draw(st.integers(0, 300)) / 10.0) for way in ways)
    width = draw(st.integers(120, 900)) / 10.0
    holes = tuple(StripHole(leg, width / 3.0, length / 2.0, 5.0) for leg, (_, length) in enumerate(legs))
    start = tuple(draw(st.integers(-999, 999)) / 7.0 for _ in range(3))
    x, y, z = start
    rounded = draw(st.sampled_from([0.0, 2.0, 0.35 * width])) if len(legs) == 1 else 0.0
    sheet = ("aluminium-5754", thickness, radius)
    return Strip(
        "foot",
        "any",
        *sheet,
        (x, y, z),
        along,
        width,
        legs,
        inwards,
        holes,
        rounded=min(rounded, least / 2.0),
    )


@settings(max_examples=30, deadline=None)
@given(strip=strips())
@example(strip=CHANNEL)
@example(strip=replace(CHANNEL, radius=0.0))
@example(strip=replace(CHANNEL, legs=CHANNEL.legs[:1], holes=()))
def test_closed_form_is_the_solid(strip: Strip) -> None:
    """Mass, centre and extent."""
    shape, told = strip_shape(strip), strip_mass(strip)
    found = solid_properties(shape, DENSITY)
    assert found.mass == pytest.approx(told.mass, rel=1e-9)
    assert found.centre == pytest.approx(told.centre, abs=1e-6)
    corners = mesh_of(shape).corners
    blocks = strip_blocks(strip)
    for axis in range(3):
        assert corners[:, axis].min() == pytest.approx(min(block.low[axis] for block in blocks), abs=1e-6)
        assert corners[:, axis].max() == pytest.approx(max(block.high[axis] for block in blocks), abs=1e-6)


def test_a_hand_counted_plate() -> None:
    """50 x 20 x 3 with a hole of 10: 3000 - 3 * 25 pi mm3."""
    plate = Strip(
        "spreading plate",
        "plate",
        "aluminium-5754",
        3.0,
        0.0,
        (0.0, 0.0, 0.0),
        "left",
        20.0,
        (("front", 50.0),),
        "up",
        (StripHole(0, 10.0, 25.0, 10.0),),
    )
    assert strip_mass(plate).volume == pytest.approx(3000.0 - 3.0 * 25.0 * 3.141592653589793)
    assert strip_mass(plate).centre == pytest.approx((25.0, 10.0, 1.5))


@pytest.mark.parametrize(
    "legs",
    [
        (("down", 22.0), ("right", 26.0)),
        (("down", 22.0), ("left", 26.0), ("down", 18.0)),
        (("down", 4.0), ("left", 26.0)),
    ],
    ids=["turns the other way", "folds to the other side", "shorter than its bend"],
)
def test_legs_that_no_strip_has_are_refused(legs: tuple[tuple[Looks, float], ...]) -> None:
    with pytest.raises(ValueError, match="channel: leg"):
        strip_mass(replace(CHANNEL, legs=legs, holes=()))


def test_a_rounded_plate_by_hand() -> None:
    """60 x 40 x 6, two corners of 16: less 2 (1 - pi / 4) 16^2, each centred 0.2234 of 16 from its sides."""
    plate = Strip(
        "lifting lug",
        "lug",
        "aluminium-5754",
        6.0,
        0.0,
        (0.0, 0.0, 0.0),
        "left",
        40.0,
        (("front", 60.0),),
        "up",
        rounded=16.0,
    )
    corner = (1.0 - pi / 4.0) * 256.0
    told = strip_mass(plate)
    assert told.volume == pytest.approx(6.0 * (2400.0 - 2.0 * corner))
    moment = 2400.0 * 30.0 - 2.0 * corner * (60.0 - 0.22337 * 16.0)
    assert told.centre == pytest.approx((moment / (2400.0 - 2.0 * corner), 20.0, 3.0), abs=1e-3)


@pytest.mark.parametrize(
    "changes", [{"rounded": 5.0}, {"legs": CHANNEL.legs[:1], "rounded": 60.0}], ids=["folded", "too round"]
)
def test_only_the_end_of_a_plate_is_rounded(changes: dict[str, object]) -> None:
    with pytest.raises(ValueError, match="only the end of a plate can be rounded"):
        strip_mass(replace(CHANNEL, holes=(), **changes))  # type: ignore[arg-type]
