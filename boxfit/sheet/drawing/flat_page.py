"""A flat as it is cut: its outline with sizes, holes and bends by number, and tables of them."""

from collections.abc import Iterator
from math import atan, cos, hypot, radians, sin

from boxfit.bay import Point
from boxfit.sheet.drawing.arrange import Arranged, arranged
from boxfit.sheet.drawing.board import Board, Placing
from boxfit.sheet.drawing.dimension import FIRST_ROW, Measured, dimension, figure
from boxfit.sheet.drawing.marks import Anchor, Arc, Circle, Line, Page, Text, heading, moved
from boxfit.sheet.drawing.tables import Table
from boxfit.sheet.drawing.title import Title
from boxfit.sheet.flat import Bend, Contour, Corner, Flat

BESIDE, OPEN = 16.0, 8.0
"""Paper [mm] at the left of and below the flat, for dimensions, and at the right and above, for labels."""
CROSS = 2.0
"""Half the width [mm] of a cross that marks a place."""
Drawn = Line | Arc | Circle


def flat_page(flat: Flat, title: Title) -> Page:
    """The sheet for one flat; `title` holds all but scale and sheet of the title block."""
    wide, deep = flat.size

    def size_at(scale: float) -> Point:
        return (wide * scale + BESIDE + OPEN, deep * scale + BESIDE + OPEN)

    chosen = arranged(
        size_at, (bend_table(flat), opening_table(flat), hole_table(flat), cross_table(flat), notes_for(flat))
    )
    board = chosen.board(title)
    draw_flat(board, flat, chosen)
    return board.page()


def draw_flat(board: Board, flat: Flat, chosen: Arranged) -> None:
    """Outline, holes, bend lines, marks and overall sizes about the middle of the area for the views."""
    (wide, deep), scale, (x, y) = flat.size, chosen.scale, chosen.centre
    shift = (BESIDE - OPEN) / 2.0
    corner = (x + shift - wide * scale / 2.0, y + shift - deep * scale / 2.0)
    board.add(moved(mark, scale, corner) for mark in flat_marks(flat))
    board.add(_datum(corner))
    far = (corner[0] + wide * scale, corner[1] + deep * scale)
    below, left = corner[1] - FIRST_ROW, corner[0] - FIRST_ROW
    dimension(board, Measured(corner, (far[0], corner[1]), figure(wide), below, -1))
    dimension(board, Measured(corner, (corner[0], far[1]), figure(deep), left, -1, True))
    crosses = [_on(at, scale, corner) for at in crosses_of(flat)]
    for at in crosses:
        board.add(_cross(at))
    for number, bend in enumerate(flat.bends, start=1):
        middle = ((bend.start[0] + bend.end[0]) / 2.0, (bend.start[1] + bend.end[1]) / 2.0)
        at = (corner[0] + middle[0] * scale, corner[1] + middle[1] * scale)
        board.place(labels(f"B{number}", at, 0.5, heading(bend.start, bend.end)))
    for number, (at, half) in enumerate(_openings(flat), start=1):
        board.place(labels(f"C{number}", _on(at, scale, corner), half * scale, 0.0))
    for number, at in enumerate(crosses, start=1):
        board.place(labels(f"M{number}", at, 0.6, 0.0))
    for number, hole in enumerate(flat.holes, start=1):
        board.place(labels(str(number), _on(hole.at, scale, corner), hole.diameter * scale / 2.0, 0.0))


def _on(at: Point, scale: float, corner: Point) -> Point:
    return (corner[0] + at[0] * scale, corner[1] + at[1] * scale)


def flat_marks(flat: Flat) -> Iterator[Drawn]:
    """Contours, holes and bend lines [mm of the flat]."""
    for contour in flat.contours:
        yield from contour_marks(contour)
    for hole in flat.holes:
        yield Circle(hole.at, hole.diameter / 2.0, "cut")
    for bend in flat.bends:
        yield Line(bend.start, bend.end, "fold up" if bend.up else "fold down")
    for line in flat.lines:
        for one, other in zip(line, line[1:] + line[:1], strict=True):
            yield Line(one, other, "centre")


def contour_marks(contour: Contour) -> Iterator[Line | Arc]:
    """A closed contour as lines and arcs."""
    for one, other in zip(contour, contour[1:] + contour[:1], strict=True):
        if one.bulge == 0.0:
            yield Line((one.x, one.y), (other.x, other.y), "cut")
        else:
            yield arc_between(one, other)


def arc_between(one: Corner, other: Corner) -> Arc:
    """The arc from a corner with a bulge to the next.

    >>> arc_between(Corner(1.0, 0.0, 1.0), Corner(-1.0, 0.0))
    Arc(centre=(0.0, 0.0), radius=1.0, start=0.0, end=180.0, style='cut')
    """
    x, y = other.x - one.x, other.y - one.y
    lift = (1.0 - one.bulge**2) / (4.0 * one.bulge)
    centre = (one.x + x / 2.0 - y * lift, one.y + y / 2.0 + x * lift)
    start, end = heading(centre, (one.x, one.y)), heading(centre, (other.x, other.y))
    if one.bulge < 0.0:
        start, end = end, start
    radius = hypot(x, y) / 2.0 / sin(2.0 * atan(abs(one.bulge)))
    return Arc(centre, radius, start % 360.0, end % 360.0, "cut")


def labels(words: str, at: Point, half: float, turn: float) -> Iterator[Placing]:
    """Ways to put a short label beside a round of radius `half` [mm of paper], near first, later with a line.

    Beside a line the label stands across from the way it runs, `turn` [degrees].
    """
    for reach in (half + 0.9, half + 1.8):
        for step in (90.0, -90.0, 45.0, -45.0, 135.0, -135.0, 0.0, 180.0):
            yield Placing(_beside(words, at, turn + step, reach))
    for reach in (half + 4.0, half + 6.0, half + 9.0, half + 12.0, half + 16.0, half + 21.0, half + 28.0):
        for step in range(24):
            angle = turn + 90.0 + 15.0 * step
            x, y = cos(radians(angle)), sin(radians(angle))
            start = (at[0] + half * x, at[1] + half * y)
            end = (at[0] + reach * x, at[1] + reach * y)
            yield Placing(_beside(words, at, angle, reach + 0.7), (Line(start, end, "dimension"),))


def _beside(words: str, at: Point, angle: float, reach: float) -> Text:
    """Words whose nearest edge lies so far [mm] from a point."""
    x, y = cos(radians(angle)), sin(radians(angle))
    anchor: Anchor = "left" if x > 0.3 else "right" if x < -0.3 else "middle"
    place = (at[0] + reach * x, at[1] + reach * y - 1.25 + 1.25 * y)
    return Text(words, place, 2.5, anchor)


def _cross(at: Point) -> tuple[Line, Line]:
    """A place to be marked."""
    (x, y), reach = at, CROSS
    return (
        Line((x - reach, y), (x + reach, y), "dimension"),
        Line((x, y - reach), (x, y + reach), "dimension"),
    )


def _datum(corner: Point) -> tuple[Circle, Line, Line]:
    """The corner that holes are measured from."""
    x, y = corner
    return (
        Circle(corner, 1.2, "dimension"),
        Line((x - 2.4, y), (x + 6.0, y), "dimension"),
        Line((x, y - 2.4), (x, y + 6.0), "dimension"),
    )


def _openings(flat: Flat) -> list[tuple[Point, float]]:
    """The middle of every opening, and half of its lesser side [mm]."""
    found = []
    for contour in flat.contours[1:]:
        (x, y), (wide, high) = _middle(contour), _extent(contour)
        found.append(((x, y), min(wide, high) / 2.0))
    return found


def _extent(contour: Contour) -> Point:
    xs, ys = [one.x for one in contour], [one.y for one in contour]
    return (max(xs) - min(xs), max(ys) - min(ys))


def _middle(contour: Contour) -> Point:
    xs, ys = [one.x for one in contour], [one.y for one in contour]
    return ((max(xs) + min(xs)) / 2.0, (max(ys) + min(ys)) / 2.0)


def hole_table(flat: Flat) -> Table:
    """Every hole from the datum corner."""
    rows = tuple(
        (str(number), figure(hole.at[0]), figure(hole.at[1]), f"{hole.diameter:g}")
        for number, hole in enumerate(flat.holes, start=1)
    )
    return Table("Holes, from the datum corner", ("no.", "x", "y", "Ø"), rows)


def crosses_of(flat: Flat) -> tuple[Point, ...]:
    """The places [mm] that are marked with a cross."""
    return tuple(mark.at for mark in flat.marks if not mark.text)


def cross_table(flat: Flat) -> Table:
    """Every place marked with a cross, from the datum corner."""
    rows = tuple(
        (f"M{number}", figure(x), figure(y)) for number, (x, y) in enumerate(crosses_of(flat), start=1)
    )
    return Table("Crosses", ("no.", "x", "y"), rows)


def opening_table(flat: Flat) -> Table:
    """Every opening by its middle and its size."""
    rows = []
    for number, contour in enumerate(flat.contours[1:], start=1):
        (x, y), (wide, high) = _middle(contour), _extent(contour)
        rows.append((f"C{number}", figure(x), figure(y), f"{figure(wide)} x {figure(high)}"))
    return Table("Openings, by their middle", ("no.", "x", "y", "size"), tuple(rows))


def bend_table(flat: Flat) -> Table:
    """Every bend with the figures that the blank was made with."""
    rows = tuple(
        (
            f"B{number}",
            "up" if bend.up else "down",
            f"{bend.angle:g}°",
            f"{bend.radius:g}",
            f"{bend.k:.3f}",
            f"{bend.allowance:.2f}",
            _line_of(bend),
            figure(hypot(bend.end[0] - bend.start[0], bend.end[1] - bend.start[1])),
        )
        for number, bend in enumerate(flat.bends, start=1)
    )
    columns = ("bend", "fold", "angle", "R inside", "K", "allowance", "middle at", "length")
    return Table("Bends, seen from the inside of the box", columns, rows)


def _line_of(bend: Bend) -> str:
    """Where a bend line is, from the datum corner."""
    (x, y), (a, b) = bend.start, bend.end
    if abs(x - a) < 0.01:
        return f"x {figure(x)}"
    return f"y {figure(y)}" if abs(y - b) < 0.01 else f"{figure(x)}, {figure(y)}"


def notes_for(flat: Flat) -> tuple[str, ...]:
    """What the maker must know."""
    wide, deep, high = flat.formed
    formed = (f"outside once formed {figure(wide)} x {figure(deep)} x {figure(high)}",) if flat.bends else ()
    by = {"the shop's own table" if bend.by_table else "DIN 6935" for bend in flat.bends}
    k = (f"K by {' and '.join(sorted(by))}",) if by else ()
    holes = ("all edges deburred; positions from the corner marked with a circle",)
    return (*formed, *k, *flat.notes, *holes)
