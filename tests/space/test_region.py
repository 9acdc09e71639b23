"""Places for a box in rooms and beside keep-outs of triangles, against the judge and against plain solids."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.bay import Bay, Block, Cylinder, Keepout, Opening, Point, Prism
from boxfit.judge.insertion import judge_insertion
from boxfit.judge.places import judge_place
from boxfit.search.bay import ROUNDING
from boxfit.space.covered import FEW
from boxfit.space.free import loosened_bay, outline_room, plan_room
from boxfit.space.region import trailed
from boxfit.surface import Surface
from boxfit.survey.sections import lofted
from boxfit.survey.shell import shell_of
from boxfit.survey.views import FEW as FEW_EXACT
from tests.box.samples import RULES
from tests.space.strategies import FLOOR, OUTLINES, TOP, BoxSize, bays, sizes
from tests.surfaces import as_shell, block_surface, finer, room_of

COARSE_SPARE, FINE_SPARE = 0.15, 1.0
"""Room [mm] that drawing may cost: few triangles exactly, many on a grid."""
CUT_CORNERS = 0.25
"""A grid cuts the corners of a room besides [mm]."""
FINE, FINER = 60.0, 25.0
"""Sides [mm] of the triangles of a fine shell, and of one whose outline follows cells."""
LIFT = 150.0
"""A box anywhere within so much height [mm] fills no level in all its places."""


def fine_bay(outline: int, distance: float, keepouts: tuple[Keepout, ...], opening: Opening | None) -> Bay:
    """A bay to be made a fine shell, still a prism."""
    rules = replace(RULES, flange=22.0 * (outline % 2))
    room = Prism(OUTLINES[outline], FLOOR, TOP)
    return Bay("bay", room, min(distance, 3.0), distance, rules, keepouts, opening)


BAR = Keepout("pipe", Cylinder((-100.0, -250.0, 300.0), (-60.0, -150.0, 420.0), 40.0), 13.0)
STEP = Keepout("step", Block((-400.0, 180.0, 200.0), (-250.0, 300.0, 380.0)), 8.0)
FINE_BAYS = {
    "a rectangle, 3 mm": fine_bay(0, 3.0, (), None),
    "narrowing past a bar, 13 mm, out at the top": fine_bay(1, 13.0, (BAR,), Opening("up")),
    "folded inwards past a step, 1 mm, out to the front": fine_bay(3, 1.0, (STEP,), Opening("front")),
}
TOUCHING = fine_bay(2, 0.0, (), None)
SIZE = BoxSize(200.0, 150.0, 120.0, 300.0)


def is_clear(bay: Bay, size: BoxSize, corner: Point) -> bool:
    box = size.at(bay, *corner)
    return not judge_place(box) and (bay.opening is None or not judge_insertion(box, bay.opening))


def free(bay: Bay, size: BoxSize) -> shapely.Geometry:
    return plan_room(bay, size.levels(bay)).places(size.width, size.depth)


def drawn_size(data: st.DataObject, bay: Bay) -> BoxSize:
    """A box between floor and top with a little more than their distances."""
    size, spare = data.draw(sizes(bay)), COARSE_SPARE
    lowest, highest = bay.room.floor + bay.distance, bay.room.top - bay.distance - size.height
    return replace(size, bottom=min(max(size.bottom, lowest + spare), highest - spare))


def corners_of(region: shapely.Geometry) -> list[Point]:
    corners = [(x, y) for x, y in shapely.get_coordinates(region)[:8].tolist()]
    if not region.is_empty:
        middle = region.representative_point()
        corners.append((middle.x, middle.y))
    return corners


def tighter(bay: Bay, by: float) -> Bay:
    return replace(
        bay,
        tolerance=bay.tolerance + by,
        distance=bay.distance + by,
        keepouts=tuple(replace(one, distance=one.distance + by) for one in bay.keepouts),
    )


def nothing_left(region: shapely.Geometry) -> None:
    assert region.area == pytest.approx(0.0, abs=1e-6)


@settings(max_examples=8)
@given(data=st.data())
def test_every_place_in_a_shell_keeps_all_distances_and_gets_in(data: st.DataObject) -> None:
    plain = data.draw(bays())
    bay, size = as_shell(plain), drawn_size(data, plain)
    for corner in corners_of(free(bay, size)):
        assert is_clear(bay, size, corner), corner


@settings(max_examples=8)
@given(data=st.data())
def test_a_shell_leaves_what_the_same_prism_leaves(data: st.DataObject) -> None:
    """Nothing more than the prism, and nothing less than it leaves with a little more asked."""
    plain = data.draw(bays())
    size = drawn_size(data, plain)
    found = free(as_shell(plain), size)
    nothing_left(found.difference(free(plain, size).buffer(1e-3)))
    nothing_left(free(tighter(plain, COARSE_SPARE), size).difference(found.buffer(1e-3)))


@pytest.mark.parametrize(
    ("plain", "spare"),
    [*((bay, FINE_SPARE + CUT_CORNERS) for bay in FINE_BAYS.values()), (TOUCHING, 1.5)],
    ids=[*FINE_BAYS, "with a step, touching"],
)
def test_a_fine_shell_leaves_what_the_same_prism_leaves(plain: Bay, spare: float) -> None:
    """Only places that are clear, no more than the prism, and no less than with about a millimetre more."""
    bay = as_shell(plain, FINE)
    assert len(room_of(bay).surface.triangles) > FEW
    found = free(bay, SIZE)
    for corner in corners_of(found):
        assert is_clear(bay, SIZE, corner), corner
    nothing_left(found.difference(free(plain, SIZE).buffer(1e-3)))
    nothing_left(free(tighter(plain, spare), SIZE).difference(found.buffer(1e-3)))
    assert found.area > 0.0


@pytest.mark.parametrize(
    "plain",
    [
        fine_bay(0, 3.0, (), None),
        pytest.param(fine_bay(0, 13.0, (), None)),
        pytest.param(fine_bay(1, 13.0, (BAR,), Opening("up"))),
    ],
    ids=["rectangle", "rectangle, far", "narrowing, far"],
)
def test_a_loosened_bay_leaves_nothing_out(plain: Bay) -> None:
    """But for what bounds give back."""
    loose = loosened_bay(as_shell(plain, FINE))
    assert loose is not None
    nothing_left(free(plain, SIZE).difference(free(loose, SIZE).buffer(ROUNDING)))


def outline_leaves_nothing_out(bay: Bay, size: BoxSize) -> None:
    """Of what is free on a level, or on any level within a lift."""
    levels, room = size.levels(bay), room_of(bay)
    lifted = replace(levels, bottom=levels.bottom + LIFT, flange_bottom=levels.flange_bottom + LIFT)
    for wider in (levels, lifted):
        outline = outline_room(bay, room, wider)
        assert outline is not None
        left = outline.places(size.width, size.depth)
        nothing_left(free(bay, size).difference(left.buffer(ROUNDING)))


@settings(max_examples=8)
@given(data=st.data())
def test_an_outline_leaves_nothing_out(data: st.DataObject) -> None:
    plain = data.draw(bays())
    outline_leaves_nothing_out(as_shell(plain), drawn_size(data, plain))


@pytest.mark.parametrize("name", FINE_BAYS)
def test_an_outline_of_very_many_triangles_leaves_nothing_out(name: str) -> None:
    bay = as_shell(FINE_BAYS[name], FINER)
    assert len(room_of(bay).surface.triangles) > FEW_EXACT
    outline_leaves_nothing_out(bay, SIZE)


def test_the_outline_of_a_leaning_room_leaves_nothing_out() -> None:
    """Its sections shift sideways and grow towards the front."""
    plain = FINE_BAYS["narrowing past a bar, 13 mm, out at the top"]
    stations = [
        (at, ((-300.0, 200.0), (300.0 + lean, 200.0), (300.0 + 2 * lean, 620.0), (-250.0 + lean, 600.0)))
        for at, lean in ((-400.0, 0.0), (0.0, 40.0), (400.0, -30.0))
    ]
    room = shell_of(lofted(stations), "room", plain.opening, plain.tolerance, (), ())
    bay = replace(plain, room=room)
    assert free(bay, SIZE).area > 0.0
    outline_leaves_nothing_out(bay, SIZE)


def as_surfaces(bay: Bay, longest: float) -> Bay:
    """The bay with its blocks that stay as surfaces."""

    def changed(keepout: Keepout) -> Keepout:
        if not isinstance(keepout.solid, Block):
            return keepout
        surface = block_surface(keepout.solid)
        return replace(keepout, solid=finer(surface, longest) if longest < np.inf else surface)

    return replace(bay, keepouts=tuple(changed(one) for one in bay.keepouts))


@pytest.mark.parametrize("longest", [np.inf, 8.0])
@settings(max_examples=8)
@given(data=st.data())
def test_a_keepout_of_triangles_takes_what_the_block_takes(longest: float, data: st.DataObject) -> None:
    plain = data.draw(bays())
    size = data.draw(sizes(plain))
    bay = as_surfaces(plain, longest)
    found = free(bay, size)
    for corner in corners_of(found):
        assert is_clear(bay, size, corner), corner
    assert found.difference(free(plain, size).buffer(1e-3)).area == pytest.approx(0.0, abs=1e-6)


HOLLOW = Block((-300.0, -200.0, 150.0), (300.0, 200.0, 700.0))


def test_nothing_stands_inside_a_solid() -> None:
    """A box so far inside a block that it keeps every distance from the block's faces is not free."""
    room = Prism(((-400.0, -300.0), (400.0, -300.0), (400.0, 300.0), (-400.0, 300.0)), 0.0, 900.0)
    keepout = Keepout("tank", block_surface(HOLLOW), 5.0)
    bay = Bay("bay", room, 3.0, 13.0, replace(RULES, flange=0.0), (keepout,))
    size = BoxSize(50.0, 50.0, 60.0, 400.0)
    assert not free(bay, size).intersects(shapely.box(-290.0, -190.0, 240.0, 140.0))


def test_what_moves_out_runs_into_what_lies_ahead() -> None:
    ring = shapely.box(0, 0, 10, 10).difference(shapely.box(2, 2, 8, 8))
    swept = trailed(ring, 0, 1)
    assert swept.covers(shapely.box(0, -500, 10, 10))
    assert not swept.intersects(shapely.box(11, -500, 20, 20))


def test_a_surface_without_thickness_still_parts_the_plan() -> None:
    """Where nothing at all is asked a box does not straddle a sheet of metal."""
    room = Prism(((0.0, 0.0), (100.0, 0.0), (100.0, 40.0), (0.0, 40.0)), 0.0, 90.0)
    sheet = Surface(
        np.array([[50.0, -1.0, -1.0], [50.0, 41.0, -1.0], [50.0, 41.0, 91.0], [50.0, -1.0, 91.0]]),
        np.array([[0, 1, 2], [0, 2, 3]]),
    )
    rules = replace(RULES, flange=0.0, clearance=0.0)
    bay = Bay("bay", room, 0.0, 0.0, rules, (Keepout("sheet", sheet, 0.0),))
    size = BoxSize(60.0, 30.0, 50.0, 10.0)
    assert free(bay, size).is_empty
    assert not free(bay, replace(size, width=45.0)).is_empty
