"""What is seen of a solid, where the views stand, what a section cuts, and how lines are joined."""

from math import pi

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from boxfit.bay import Block
from boxfit.sheet.drawing.arrange import arranged
from boxfit.sheet.drawing.board import Board
from boxfit.sheet.drawing.dimension import Measured, dimension
from boxfit.sheet.drawing.lines import told_apart, union, without
from boxfit.sheet.drawing.marks import Arrow, Circle, Line
from boxfit.sheet.drawing.paper import A3
from boxfit.sheet.drawing.section import cut_faces, hatching
from boxfit.sheet.drawing.tables import Table, height_of, pieces
from boxfit.sheet.drawing.three_views import draw_views, views_of
from boxfit.sheet.drawing.title import Title
from boxfit.sheet.drawing.views import FROM_ABOVE, FROM_REAR, FROM_RIGHT, seen
from boxfit.solid.shapes import block_shape, drilled
from tests.sheet.drawing.samples import sample

TITLE = Title("plate", "F1-01", "part drawing", "", "car")
PLATE = Block((10.0, 20.0, 30.0), (110.0, 70.0, 34.0))


def test_a_drilled_plate_shows_its_edges_and_its_hole() -> None:
    solid = drilled(block_shape(PLATE), ((40.0, 50.0),), 8.0, (30.0, 34.0))
    above = seen((solid,), FROM_ABOVE, True)
    lines = {(mark.start, mark.end) for mark in above if isinstance(mark, Line)}
    assert lines == {
        ((10.0, 20.0), (110.0, 20.0)),
        ((10.0, 70.0), (110.0, 70.0)),
        ((10.0, 20.0), (10.0, 70.0)),
        ((110.0, 20.0), (110.0, 70.0)),
    }
    rounds = [mark for mark in above if not isinstance(mark, Line)]
    assert len(rounds) == 1
    assert isinstance(rounds[0], Circle)
    assert rounds[0].radius == pytest.approx(4.0)
    assert rounds[0].centre == pytest.approx((40.0, 50.0))
    right = seen((solid,), FROM_RIGHT, True)
    hidden = sorted(mark.start[0] for mark in right if isinstance(mark, Line) and mark.style == "hidden")
    assert hidden == pytest.approx([36.0, 44.0])
    assert all(mark.style == "visible" for mark in seen((solid,), FROM_REAR, False))


def test_what_is_behind_is_hidden() -> None:
    behind = block_shape(Block((40.0, 30.0, 0.0), (50.0, 40.0, 10.0)))
    both = seen((block_shape(PLATE), behind), FROM_ABOVE, True)
    hidden = [mark for mark in both if mark.style == "hidden"]
    assert len(hidden) == 4
    assert len([mark for mark in both if mark.style == "visible"]) == 4


def test_first_angle_stands_the_views_where_the_standard_says() -> None:
    """ISO 5456-2: seen from above below the main view, seen from its left at its right."""
    views = views_of((block_shape(PLATE),), False)
    chosen = arranged(views.paper, ())
    front, above, rear = draw_views(chosen.board(TITLE), views, chosen.scale, chosen.views)
    corner = (10.0, 20.0, 30.0)
    assert above.at(corner)[0] == pytest.approx(front.at(corner)[0])
    assert above.at((10.0, 70.0, 30.0))[1] < front.at(corner)[1]
    assert rear.at(corner)[1] == pytest.approx(front.at(corner)[1])
    assert rear.at((10.0, 70.0, 30.0))[0] > front.at((110.0, 20.0, 30.0))[0]


def test_a_section_cuts_what_the_sums_say() -> None:
    solid = drilled(block_shape(PLATE), ((40.0, 50.0),), 8.0, (30.0, 34.0))
    whole, drilled_faces = cut_faces(solid, 25.0), cut_faces(solid, 50.0)
    assert sum(face.area for face in whole) == pytest.approx(100.0 * 4.0)
    assert sum(face.area for face in drilled_faces) == pytest.approx(92.0 * 4.0)
    assert cut_faces(solid, 75.0) == []


def test_the_tray_is_cut_as_thick_as_its_sheet() -> None:
    tray = sample().built[0].parts.tray
    outside, y = tray.outside, 0.25 * tray.outside.low[1] + 0.75 * tray.outside.high[1]
    faces = shapely.union_all(cut_faces(sample().shapes[tray.name], y))
    half = outside.low[2] + 60.0
    wall = faces.intersection(
        shapely.LineString([(outside.high[0] - 4.0, half), (outside.high[0] + 9.0, half)])
    )
    assert wall.length == pytest.approx(tray.thickness, abs=1e-3)


@given(st.floats(0.8, 5.0), st.floats(-90.0, 180.0))
def test_hatching_stays_inside_and_fills(apart: float, turn: float) -> None:
    face = shapely.Polygon([(0.0, 0.0), (40.0, 0.0), (40.0, 5.0), (6.0, 5.0), (6.0, 30.0), (0.0, 30.0)])
    lines = [shapely.LineString([line.start, line.end]) for line in hatching(face, apart, turn)]
    assert all(face.buffer(1e-6).contains(line) for line in lines)
    assert sum(line.length for line in lines) * apart == pytest.approx(face.area, abs=apart * 45.0)


spans = st.lists(
    st.tuples(st.integers(0, 50), st.integers(1, 20)).map(lambda s: (float(s[0]), float(sum(s))))
)


@given(spans, spans)
def test_spans_are_sets(some: list[tuple[float, float]], taken: list[tuple[float, float]]) -> None:
    """Joined and cut as sets of whole millimetres are."""

    def cells(several: list[tuple[float, float]]) -> set[int]:
        return {cell for low, high in several for cell in range(round(low), round(high))}

    joined = union(some)
    assert cells(joined) == cells(some)
    assert sum(high - low for low, high in joined) == len(cells(some))
    assert cells(without(joined, taken)) == cells(some) - cells(taken)


def test_hidden_edges_beside_visible_ones_are_left_out() -> None:
    wall = Line((0.0, 0.0), (0.0, 100.0), "visible")
    near, far = Line((2.0, 0.0), (2.0, 100.0), "hidden"), Line((9.0, 0.0), (9.0, 100.0), "hidden")
    assert told_apart((wall, near, far), 4.0) == (wall, far)


@pytest.mark.parametrize(("length", "inside"), [(60.0, True), (5.0, False)])
def test_a_figure_stands_between_the_arrows_where_there_is_room(length: float, inside: bool) -> None:
    board = Board(A3, TITLE)
    before = len(board.page().texts)
    assert dimension(board, Measured((100.0, 150.0), (100.0 + length, 150.0), "60", 140.0, -1))
    page = board.page()
    (text,) = page.texts[before:]
    tips = sorted(mark.tip[0] for mark in page.marks if isinstance(mark, Arrow))
    assert tips == pytest.approx([100.0, 100.0 + length])
    assert (tips[0] < text.at[0] < tips[1]) == inside
    assert text.at[1] > 140.0


@given(st.integers(1, 80), st.floats(60.0, 400.0), st.floats(40.0, 300.0))
def test_a_table_in_pieces_keeps_every_row(rows: int, width: float, height: float) -> None:
    table = Table("holes", ("no.", "x"), tuple((str(row), f"{row * 1.5}") for row in range(rows)))
    found = pieces(table, width, height)
    assert [row for piece in found for row in piece.rows] == list(table.rows)
    assert len(found) == 1 or max(height_of(piece) for piece in found) < height_of(table)


def test_arcs_and_circles_have_the_length_they_should() -> None:
    ring = shapely.LineString(Circle((3.0, 4.0), 10.0, "visible").points)
    assert ring.length == pytest.approx(20.0 * pi, rel=0.002)
