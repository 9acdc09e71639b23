"""How a load is shared among fixings: balance always, and the handbook's rivet group in one plane."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.bay import Vector
from boxfit.retention.fixings import Fixing, shared

UP: Vector = (0.0, 0.0, 1.0)
FORWARD: Vector = (1.0, 0.0, 0.0)
numbers = st.floats(-500.0, 500.0)
places = st.tuples(numbers, numbers, numbers)
loads = st.tuples(*(st.floats(-20000.0, 20000.0) for _ in range(3)))


def in_plane(*points: tuple[float, float]) -> tuple[Fixing, ...]:
    return tuple(Fixing(f"foot {number}", (x, y, 0.0), UP) for number, (x, y) in enumerate(points, start=1))


CORNERS = in_plane((0.0, 0.0), (300.0, 0.0), (0.0, 200.0), (300.0, 200.0))


@given(loads, places)
def test_pulls_balance_the_load(load: tuple[float, ...], at: Vector) -> None:
    """Along the axis all pulls add up to the load, and their moment to the load's."""
    force: Vector = (load[0], load[1], load[2])
    held = shared(force, at, CORNERS)
    assert held is not None
    assert sum(one.pull for one in held) == pytest.approx(force[2], abs=1e-4)
    about_y = sum(one.pull * one.fixing.at[0] for one in held)
    # the moment about y of load and place: z Fx - x Fz, against the fixings' -x F
    assert about_y == pytest.approx(force[2] * at[0] - force[0] * at[2], abs=1e-1)


def test_the_rivet_group_of_the_handbooks() -> None:
    """Shear with a twist: F / n, and M r / sum of r squared; worked by hand.

    1000 N along y at 400 mm from the middle of four at (+-150, +-100): the twist is 400 Nm over
    4 x (150^2 + 100^2) = 130000 mm2: 3.0769 N/mm; 250 + 461.5 up and 307.7 sideways at the near ones.
    """
    held = shared((0.0, 1000.0, 0.0), (550.0, 100.0, 0.0), CORNERS)
    assert held is not None
    near, far = max(one.across for one in held), min(one.across for one in held)
    assert near == pytest.approx(((250 + 461.538) ** 2 + 307.692**2) ** 0.5, rel=1e-5)
    assert far == pytest.approx(((250 - 461.538) ** 2 + 307.692**2) ** 0.5, rel=1e-5)


def test_feet_on_walls_and_floor_share_too() -> None:
    """A box held at its floor in front and at its rear wall: a forward load pulls the wall's fixing along."""
    floor = in_plane((300.0, 0.0), (300.0, 200.0))
    wall = tuple(Fixing(f"wall {y:g}", (0.0, y, 150.0), FORWARD) for y in (0.0, 200.0))
    held = shared((8000.0, 0.0, 0.0), (150.0, 100.0, 75.0), (*floor, *wall))
    assert held is not None
    pulled = [one for one in held if one.fixing.axis == FORWARD]
    assert all(one.pull > 0.0 for one in pulled)


@pytest.mark.parametrize("fixings", [(), in_plane((0.0, 0.0)), in_plane((0.0, 0.0), (100.0, 0.0))])
def test_too_few_fixings_hold_nothing(fixings: tuple[Fixing, ...]) -> None:
    """A load beside one fixing, or beside the line through two, turns the box about it."""
    assert shared((0.0, 0.0, 1000.0), (50.0, 80.0, 0.0), fixings) is None


def test_two_fixings_hold_what_acts_through_their_line() -> None:
    held = shared((0.0, 0.0, 1000.0), (50.0, 0.0, 0.0), in_plane((0.0, 0.0), (100.0, 0.0)))
    assert held is not None
    assert [one.pull for one in held] == pytest.approx([500.0, 500.0])


@given(loads, places)
def test_units_and_origin_do_not_matter(load: tuple[float, ...], at: Vector) -> None:
    """The car moved as a whole by 10 m gives the same forces."""
    force: Vector = (load[0], load[1], load[2])
    moved = tuple(Fixing(one.name, (one.at[0] - 10000.0, *one.at[1:]), one.axis) for one in CORNERS)
    here, there = shared(force, at, CORNERS), shared(force, (at[0] - 10000.0, *at[1:]), moved)
    assert here is not None
    assert there is not None
    assert [one.pull for one in here] == pytest.approx([one.pull for one in there], abs=1e-3)
