"""Three views of a thing in first angle, with outside dimensions in rows beside them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from boxfit.bay import Point, Vector
from boxfit.sheet.drawing.board import Area, Board
from boxfit.sheet.drawing.dimension import FIRST_ROW, ROW, Measured, dimension, figure
from boxfit.sheet.drawing.lines import told_apart
from boxfit.sheet.drawing.marks import moved
from boxfit.sheet.drawing.views import FROM_ABOVE, FROM_REAR, FROM_RIGHT, Drawn, Side, seen

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

Span = tuple[float, float]
LEAST_HIDDEN = 0.8
"""Hidden edges shorter than this, or so near to a visible one [mm of paper], are left out."""
ALIKE = 0.05
"""Spans that differ by less than this [mm] are one."""
OPEN_SIDE = 8.0
"""Paper [mm] beside views where no dimension stands."""


@dataclass(frozen=True)
class Views:
    """What is drawn of a thing: its extent in the car [mm], edges in each view, and spans to be measured.

    `spans` are, for each axis, rows of dimensions from the nearest to the view outwards.
    """

    low: Vector
    high: Vector
    right: tuple[Drawn, ...]
    above: tuple[Drawn, ...]
    rear: tuple[Drawn, ...]
    spans: tuple[tuple[Span, ...], tuple[Span, ...], tuple[Span, ...]]

    @property
    def size(self) -> Vector:
        """Along x, y and z [mm]."""
        x, y, z = (high - low for low, high in zip(self.low, self.high, strict=True))
        return (x, y, z)

    def room(self, axis: int) -> float:
        """What the rows of dimensions along one axis take beside a view [mm of paper]."""
        rows = len(self.spans[axis])
        return FIRST_ROW + ROW * max(0, rows - 1) + 4.0 if rows else OPEN_SIDE

    def paper(self, scale: float) -> Point:
        """What the three views with their dimensions take at a scale [mm of paper]."""
        x, y, z = (side * scale for side in self.size)
        wide = max(self.room(1), self.room(2)) + x + OPEN_SIDE + 8.0 + y + OPEN_SIDE
        high = OPEN_SIDE + z + max(OPEN_SIDE, self.room(1)) + y + self.room(0)
        return (wide, max(high, OPEN_SIDE + z + self.room(1)))


@dataclass(frozen=True)
class View:
    """One view on paper: where places of the car come to lie."""

    side: Side
    scale: float
    origin: Point

    def at(self, place: Vector) -> Point:
        """A place in the car [mm] on paper [mm]."""
        across, up = self.side.flat(place)
        return (self.origin[0] + across * self.scale, self.origin[1] + up * self.scale)


def views_of(
    shapes: "tuple[TopoDS_Shape, ...]",
    hidden: bool,
    spans: Callable[[Vector, Vector], Sequence[Sequence[Span]]] | None = None,
) -> Views:
    """The three views of shapes taken together; `spans` gives more rows than the overall size.

    It is given the extent and returns for each axis the rows nearer to the view than the overall size.
    """
    low, high = extent_of(shapes)
    inner = spans(low, high) if spans else ((), (), ())
    rows = [_rows(inner[axis], (low[axis], high[axis])) for axis in range(3)]
    pictures = [seen(shapes, side, hidden) for side in (FROM_RIGHT, FROM_ABOVE, FROM_REAR)]
    return Views(low, high, pictures[0], pictures[1], pictures[2], (rows[0], rows[1], rows[2]))


def _rows(inner: Sequence[Span], overall: Span) -> tuple[Span, ...]:
    """Spans from the nearest row outwards, none twice, the overall one last."""
    kept: list[Span] = []
    for span in (*inner, overall):
        if all(abs(span[0] - other[0]) + abs(span[1] - other[1]) > ALIKE for other in kept):
            kept.append(span)
    return tuple(kept)


def extent_of(shapes: "tuple[TopoDS_Shape, ...]") -> tuple[Vector, Vector]:
    """Low and high corner [mm] of shapes taken together."""
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib

    box = Bnd_Box()
    for shape in shapes:
        BRepBndLib.AddOptimal_s(shape, box, False, False)
    x, y, z, a, b, c = box.Get()
    return (x, y, z), (a, b, c)


def draw_views(board: Board, views: Views, scale: float, area: Area) -> tuple[View, View, View]:
    """Draws the three views with their dimensions about the middle of an area; returns where they are."""
    x, y, z = (side * scale for side in views.size)
    (wide, high), rows = views.paper(scale), max(views.room(1), views.room(2))
    left = (area[0] + area[2] - wide) / 2.0 + rows
    top = (area[1] + area[3] + high) / 2.0 - OPEN_SIDE
    floor = top - z
    plan = floor - max(OPEN_SIDE, views.room(1)) - y
    aside = left + x + OPEN_SIDE + 8.0
    corners = ((FROM_RIGHT, (left, floor)), (FROM_ABOVE, (left, plan)), (FROM_REAR, (aside, floor)))
    placed = []
    for (side, corner), edges in zip(corners, (views.right, views.above, views.rear), strict=True):
        least = (views.low[0], views.low[1], views.low[2])
        if side is FROM_REAR:
            least = (views.low[0], views.high[1], views.low[2])
        across, up = side.flat(least)
        view = View(side, scale, (corner[0] - across * scale, corner[1] - up * scale))
        shown = told_apart(edges, LEAST_HIDDEN / scale)
        board.add(moved(mark, scale, view.origin) for mark in shown)
        placed.append(view)
    front, above, rear = placed
    _measure(board, views, front, above, rear)
    return front, above, rear


def _measure(board: Board, views: Views, front: View, above: View, rear: View) -> None:
    """Lengths under the view from above, widths under that from the rear, heights left of the main view."""
    low = views.low
    for step, (start, end) in enumerate(views.spans[0]):
        one, other = above.at((start, low[1], low[2])), above.at((end, low[1], low[2]))
        row = one[1] - FIRST_ROW - ROW * step
        dimension(board, Measured(one, other, figure(end - start), row, -1))
    for step, (start, end) in enumerate(views.spans[1]):
        one, other = rear.at((low[0], start, low[2])), rear.at((low[0], end, low[2]))
        row = one[1] - FIRST_ROW - ROW * step
        dimension(board, Measured(one, other, figure(end - start), row, -1))
    for step, (start, end) in enumerate(views.spans[2]):
        one, other = front.at((low[0], low[1], start)), front.at((low[0], low[1], end))
        row = front.at(low)[0] - FIRST_ROW - ROW * step
        dimension(board, Measured(one, other, figure(end - start), row, -1, True))
