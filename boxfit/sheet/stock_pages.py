"""Stock sheets as drawings: one page for each sheet, every part where it lies, and a list of them."""

from collections.abc import Iterator
from math import ceil
from typing import TYPE_CHECKING

from boxfit.bay import Point
from boxfit.sheet.drawing.letters import corners_of, cut_to
from boxfit.sheet.drawing.marks import Arrow, Circle, Drawing, Line, Mark, Page, Style, Text
from boxfit.sheet.drawing.paper import A3, frame_marks
from boxfit.sheet.flat import Flat
from boxfit.sheet.outline import points_of
from boxfit.sheet.stock import Nesting, Placed, Sheet, StockUse

if TYPE_CHECKING:
    from shapely import Geometry

LEFT, BOTTOM, RIGHT, TOP = (A3.frame[0] + 6.0, A3.frame[1] + 4.0, A3.frame[2] - 6.0, A3.frame[3] - 4.0)
HEAD, HIGHEST = 22.0, 200.0
"""Room [mm] on paper for the heading, and under it for the sheet."""
ROW, COLUMNS = 4.2, 2
HEIGHTS = (3.5, 2.5, 1.8, 1.4)
"""Heights [mm] of a part's number on it, the first that finds room."""
SPOTS = (0, 1, -1, 2, -2, 3, -3)
"""Places tried for it, eighths of the part's extent from its middle."""
NARROWEST_STRIP = 60.0
"""A strip left whole of less than this [mm] is not pointed out."""
AID = "A working aid: check figures with the shop before cutting."


def stock_drawing(nesting: Nesting) -> Drawing:
    """A page A3 for each stock sheet, and as many more as the lists of their parts ask for."""
    pages = [page for use in nesting.uses for sheet in use.sheets for page in _pages(use, sheet)]
    return Drawing("sheets", tuple(pages))


def scale_of(sheet: Sheet) -> int:
    """How many times smaller than it is a sheet is drawn."""
    long, short = sheet.stock.size
    return max(1, ceil(max(long / (RIGHT - LEFT), short / HIGHEST)))


def _pages(use: StockUse, sheet: Sheet) -> Iterator[Page]:
    """The sheet with its list, and pages for what of the list does not fit under it."""
    scale = scale_of(sheet)
    corner = (LEFT, TOP - HEAD - sheet.stock.size[1] / scale)
    marks = [*frame_marks(A3), *_heading(use, sheet, scale), *_stock(sheet, corner, scale)]
    numbers = [_number(one, corner, scale) for one in sheet.placed]
    marks += [mark for one in sheet.placed for mark in _part(one.flat, corner, scale)]
    marks += [number for number in numbers if number]
    rows = _rows(sheet, [number is not None for number in numbers])
    top = corner[1] - 12.0
    while True:
        fit = COLUMNS * max(1, int((top - BOTTOM) // ROW))
        yield Page((A3.width, A3.height), (*marks, *_list(rows[:fit], top)))
        rows = rows[fit:]
        if not rows:
            return
        marks = [*frame_marks(A3), Text(f"{sheet.name}: list, continued", (LEFT, TOP - 8.0), 5.0)]
        top = TOP - 18.0


def _heading(use: StockUse, sheet: Sheet, scale: int) -> Iterator[Mark]:
    """What sheet this is, how well it is used, and what the shop must know."""
    stock = sheet.stock
    size = " x ".join(f"{side:g}" for side in (*stock.size, stock.thickness))
    place = f"sheet {use.sheets.index(sheet) + 1} of {len(use.sheets)}"
    yield Text(f"{stock.material}, {size} mm, {place}", (LEFT, TOP - 8.0), 5.0)
    share = f"parts are {sheet.utilisation * 100.0:.0f} % of the sheet; {stock.mass:.1f} kg bought"
    apart = f"parts {stock.gap:g} mm apart, {stock.edge:g} mm from the edge; drawn 1:{scale}"
    least = f"by area no fewer than {use.least_sheets} of these would do"
    yield Text(f"{share}; {least}; {apart}. {AID}", (LEFT, TOP - 14.0), 2.5)


def _stock(sheet: Sheet, corner: Point, scale: int) -> Iterator[Mark]:
    """The sheet's edge and sides, the way it was rolled, the strip left whole."""
    (x, y), stock = corner, sheet.stock
    wide, deep = stock.size[0] / scale, stock.size[1] / scale
    points = [(x, y), (x + wide, y), (x + wide, y + deep), (x, y + deep)]
    yield from (
        Line(one, other, "frame", 0.5) for one, other in zip(points, points[1:] + points[:1], strict=True)
    )
    yield Text(f"{stock.size[0]:g}", (x + wide / 2.0, y - 4.0), 2.5, "middle")
    yield Text("grain", (x, y - 4.0), 2.5)
    yield Line((x + 11.0, y - 2.8), (x + 30.0, y - 2.8), "dimension")
    yield Arrow((x + 32.0, y - 2.8), 0.0)
    strip = sheet.remainder
    if strip[0] >= NARROWEST_STRIP:
        start = x + wide - strip[0] / scale
        yield Line((start, y), (start, y + deep), "centre")
        words = f"left whole {strip[0]:.0f} x {strip[1]:g}"
        yield Text(words, (start + strip[0] / scale / 2.0 + 1.2, y + deep / 2.0), 2.5, "middle", 90.0)


def _part(flat: Flat, corner: Point, scale: int) -> Iterator[Mark]:
    """Contours, holes and folds of a part where it lies."""

    def on_paper(point: Point) -> Point:
        return (corner[0] + point[0] / scale, corner[1] + point[1] / scale)

    for contour in flat.contours:
        points = [on_paper(point) for point in points_of(contour)]
        pairs = zip(points, points[1:] + points[:1], strict=True)
        yield from (Line(one, other, "cut", 0.25) for one, other in pairs)
    for hole in flat.holes:
        yield Circle(on_paper(hole.at), hole.diameter / 2.0 / scale, "hatch")
    for bend in flat.bends:
        style: Style = "fold up" if bend.up else "fold down"
        yield Line(on_paper(bend.start), on_paper(bend.end), style)


def _number(placed: Placed, corner: Point, scale: int) -> Text | None:
    """The part's number where it stands clear of everything on the part; None where there is no room."""
    import shapely

    flat = placed.flat
    free = _free(flat)
    shapely.prepare(free)
    wide, deep = placed.size
    x, y = placed.at[0] + wide / 2.0, placed.at[1] + deep / 2.0
    turns = (0.0, 90.0) if wide >= deep else (90.0, 0.0)
    for height in HEIGHTS:
        for turn in turns:
            for right in SPOTS:
                for up in SPOTS:
                    at = (x + right * wide / 8.0, y + up * deep / 8.0)
                    if free.contains(_room(placed.part.number, at, height * scale, turn)):
                        on_paper = (corner[0] + at[0] / scale, corner[1] + at[1] / scale)
                        return _centred(placed.part.number, on_paper, height, turn)
    return None


def _centred(words: str, at: Point, height: float, turn: float) -> Text:
    """Words with their middle at a point."""
    down = (0.0, -height / 2.0) if turn == 0.0 else (height / 2.0, 0.0)
    return Text(words, (at[0] + down[0], at[1] + down[1]), height, "middle", turn)


def _room(words: str, at: Point, height: float, turn: float) -> "Geometry":
    """What words take, and a little more [mm of the part]."""
    import shapely

    return shapely.Polygon(corners_of(_centred(words, at, height, turn))).buffer(height / 5.0, join_style=2)


def _free(flat: Flat) -> "Geometry":
    """What of a part bears no hole and no fold."""
    import shapely

    outer, *openings = (points_of(contour) for contour in flat.contours)
    holes = [shapely.Point(hole.at).buffer(hole.diameter / 2.0) for hole in flat.holes]
    bends = [shapely.LineString([bend.start, bend.end]).buffer(0.5) for bend in flat.bends]
    return shapely.Polygon(outer, openings).difference(shapely.union_all([*holes, *bends]))


def _rows(sheet: Sheet, told_on: list[bool]) -> list[tuple[str, str, str]]:
    """Number, name and the rest of every part on a sheet, alike ones together."""
    lying: dict[str, list[Placed]] = {}
    bare: dict[str, Point] = {}
    for one, told in zip(sheet.placed, told_on, strict=True):
        lying.setdefault(one.part.number, []).append(one)
        if not told:
            bare.setdefault(one.part.number, one.at)
    rows = []
    for number, alike in lying.items():
        flat = alike[0].part.flat
        size = " x ".join(f"{side:.1f}" for side in flat.size)
        lies = "at {:.0f}, {:.0f}, ".format(*bare[number]) if number in bare else ""
        rows.append((number, flat.name, f"{size}, {lies}{len(alike)} off"))
    return rows


def _list(rows: list[tuple[str, str, str]], top: float) -> Iterator[Mark]:
    """The list in columns, filled row by row."""
    width = (RIGHT - LEFT) / COLUMNS
    for place, (number, name, size) in enumerate(rows):
        x, y = LEFT + width * (place % COLUMNS), top - ROW * (place // COLUMNS + 1)
        yield Text(cut_to(number, 2.5, 16.0), (x, y), 2.5)
        yield Text(cut_to(name, 2.5, width - 75.0), (x + 17.0, y), 2.5)
        yield Text(cut_to(size, 2.5, 55.0), (x + width - 57.0, y), 2.5)
