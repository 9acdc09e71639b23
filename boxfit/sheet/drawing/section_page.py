"""The second sheet of a box: a section along it through lid and flange, and the rim enlarged."""

from collections.abc import Sequence
from dataclasses import dataclass

import shapely

from boxfit.bay import Point
from boxfit.box.parts import Tray
from boxfit.box.whole import BuiltBox
from boxfit.sheet.drawing.arrange import Item as Tabled
from boxfit.sheet.drawing.arrange import arranged, scale_words
from boxfit.sheet.drawing.balloons import Item, balloons
from boxfit.sheet.drawing.board import Area, Board
from boxfit.sheet.drawing.box_items import BoxItem
from boxfit.sheet.drawing.dimension import FIRST_ROW, Measured, dimension, figure
from boxfit.sheet.drawing.marks import Circle, Line, Page, Text, moved
from boxfit.sheet.drawing.rim import DETAIL, Rim, draw_rim
from boxfit.sheet.drawing.section import cut_faces, outline_marks
from boxfit.sheet.drawing.three_views import extent_of
from boxfit.sheet.drawing.title import Title
from boxfit.sheet.drawing.views import FROM_ABOVE, seen

HEADING = 3.5
"""Height [mm] of the names of views."""
SAID_BESIDE = ("tray", "lid", "cover plate", "gasket")
"""Items that the detail of the rim always shows and names."""
HEADED = 17.0
"""Paper [mm] above a view, for what it is called."""
BESIDE = 30.0
"""Paper [mm] at the right of the section for item numbers, and at its left for dimensions."""


@dataclass(frozen=True)
class Cut:
    """An item with the faces [mm, x and z] that the plane cuts of it."""

    item: BoxItem
    faces: tuple[shapely.Polygon, ...]

    @property
    def place(self) -> Point:
        """A place inside its largest face."""
        point = max(self.faces, key=lambda face: face.area).representative_point()
        return (point.x, point.y)


def plane_of(tray: Tray) -> float:
    """Where [mm, y] the plane stands: through the flange's hole at the front nearest the middle."""
    low, high = tray.outside.low, tray.outside.high
    middle = (low[1] + high[1]) / 2.0
    ahead = [y for x, y in tray.holes if x > high[0] and low[1] < y < high[1] and _is_whole(tray, y)]
    return min(ahead, key=lambda y: (abs(y - middle), y), default=middle)


def _is_whole(tray: Tray, y: float) -> bool:
    """Whether the walls at front and rear have no cutout there."""
    ends = [one for one in tray.cutouts if one.looks in ("front", "rear")]
    return all(abs(one.at[1] - y) > max(one.diameter, one.size[0]) / 2.0 + 2.0 for one in ends)


def section_page(built: BuiltBox, items: tuple[BoxItem, ...], title: Title, tables: Sequence[Tabled]) -> Page:
    """The sheet with the section, item numbers, the rim enlarged, and tables."""
    y = plane_of(built.parts.tray)
    cuts = [Cut(one, tuple(face for shape in one.shapes for face in cut_faces(shape, y))) for one in items]
    cuts = [one for one in cuts if one.faces]
    x, low, far, high = shapely.union_all([face for cut in cuts for face in cut.faces]).bounds
    rim = Rim(built.parts, built.bay.box)
    flange = built.parts.tray.flange
    across = (built.box.low[1] - flange, built.box.high[1] + flange)

    def size_at(scale: float) -> Point:
        wide = (far - x) * scale + 2.0 * BESIDE + DETAIL[0]
        views = (high - low + across[1] - across[0]) * scale + 3.0 * HEADED
        return (wide, max(views, DETAIL[1] + 12.0))

    chosen = arranged(size_at, tables, largest=0.5)
    board = chosen.board(title)
    left, bottom, right, top = chosen.views
    split, level = right - DETAIL[0], top - HEADED - (high - low) * chosen.scale
    across_paper = (left + split) / 2.0 - (x + far) / 2.0 * chosen.scale
    place = ((across_paper, level - HEADED + 4.0), chosen.scale)
    board.add(
        [
            Text(f"section A-A, {chosen.ratio}: cut faces only", (left + 2.0, top - 5.0), HEADING),
            Text(f"detail B, {scale_words(rim.scale)}", (split + 2.0, top - 5.0), HEADING),
            Text(
                "from above, lid and modules out",
                (left + 2.0, place[0][1] - (across[1] - across[0]) * chosen.scale - 8.0),
                HEADING,
            ),
        ]
    )
    _section(board, built, cuts, chosen.scale, (left, level, split, top - HEADED))
    draw_rim(board, rim, [(cut.item, cut.faces) for cut in cuts], (split, bottom, right, top - 10.0))
    told = {cut.item.item for cut in cuts if cut.item.name in (*SAID_BESIDE, *_whole_sheets(cuts))}
    others = [one for one in items if one.inside and one.item not in told]
    _open_view(board, items, others, place)
    return board.page()


def _open_view(
    board: Board, items: tuple[BoxItem, ...], others: Sequence[BoxItem], place: tuple[Point, float]
) -> None:
    """The box from above with lid and cover plate off, below the section; items numbered that it lacks."""
    (across, top), scale = place
    shown = [one for one in items if one.name == "tray" or (one.inside and one.name != "liner")]
    shapes = tuple(shape for one in shown for shape in one.shapes)
    low, high = extent_of(shapes)
    origin = (across, top - high[1] * scale)
    board.add(moved(mark, scale, origin) for mark in seen(shapes, FROM_ABOVE, False))
    places = [Item(one.item, _on((one.middle[0], one.middle[1]), scale, origin)) for one in others]
    right, bottom = _on((high[0], low[1]), scale, origin)
    balloons(board, places, right + 14.0, (bottom, top))


def _section(board: Board, built: BuiltBox, cuts: Sequence[Cut], scale: float, area: Area) -> None:
    """The cut faces of all items, the modules in thin lines, the overall height, and item numbers."""
    x, low, far, high = shapely.union_all([face for cut in cuts for face in cut.faces]).bounds
    origin = (
        (area[0] + area[2]) / 2.0 - (x + far) / 2.0 * scale,
        (area[1] + area[3]) / 2.0 - (low + high) / 2.0 * scale,
    )
    for cut in cuts:
        for face in cut.faces:
            board.add(moved(line, scale, origin) for line in outline_marks(face))
    y = plane_of(built.parts.tray)
    for module in built.box.modules:
        if module.low[1] <= y <= module.high[1]:
            (a, _, c), (d, _, f) = module.low, module.high
            board.add(moved(line, scale, origin) for line in _rectangle((a, c), (d, f)))
    board.add(_detail_ring(built, scale, origin))
    start, end = (
        (origin[0] + x * scale, origin[1] + low * scale),
        (origin[0] + x * scale, origin[1] + high * scale),
    )
    dimension(board, Measured(start, end, figure(high - low), start[0] - FIRST_ROW, -1, True))
    corner = (origin[0] + far * scale, origin[1] + high * scale)
    sheets = _whole_sheets(cuts)
    items = [Item(cut.item.item, _on(cut.place, scale, origin)) for cut in cuts if cut.item.name in sheets]
    balloons(board, items, corner[0] + 14.0, (area[1] - 8.0, area[3] + 8.0))


def _whole_sheets(cuts: Sequence[Cut]) -> list[str]:
    """What is numbered in the section: shelves and liner; the rim is told beside its detail."""
    return [cut.item.name for cut in cuts if cut.item.name.startswith(("shelf", "liner", "tray"))]


def _on(place: Point, scale: float, origin: Point) -> Point:
    return (origin[0] + place[0] * scale, origin[1] + place[1] * scale)


def _rectangle(low: Point, high: Point) -> list[Line]:
    """A module, drawn as what is not part of the box."""
    corners = (low, (high[0], low[1]), high, (low[0], high[1]))
    ends = zip(corners, corners[1:] + corners[:1], strict=True)
    return [Line(one, other, "adjacent") for one, other in ends]


def _detail_ring(built: BuiltBox, scale: float, origin: Point) -> list[Circle | Text]:
    """What detail B shows."""
    left, bottom, right, top = Rim(built.parts, built.bay.box).window
    middle = _on(((left + right) / 2.0, (bottom + top) / 2.0), scale, origin)
    radius = max(right - left, top - bottom) / 2.0 * scale + 1.0
    return [
        Circle(middle, radius, "dimension"),
        Text("B", (middle[0] + radius * 0.75, middle[1] + radius * 0.75 + 0.5), 3.5),
    ]
