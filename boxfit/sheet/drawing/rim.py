"""The rim of a box enlarged: wall, bend, flange, gasket, lid, cover plate, with what lies between them."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import shapely

from boxfit.bay import BoxRules, Point
from boxfit.box.parts import BoxParts
from boxfit.sheet.drawing.board import Area, Board, Placing
from boxfit.sheet.drawing.box_items import BoxItem
from boxfit.sheet.drawing.dimension import Measured, dimension, figure
from boxfit.sheet.drawing.letters import cut_to
from boxfit.sheet.drawing.marks import Circle, Line, Text, moved
from boxfit.sheet.drawing.section import hatching

DETAIL = (190.0, 140.0)
"""What the detail takes [mm of paper]."""
INWARDS, DOWN, BEYOND, OVER = 16.0, 24.0, 4.0, 4.0
"""From the outside of the wall inwards, from the rim down, past the flange and over the top [mm]."""
WORDS = 74.0
"""Width [mm of paper] of what is said beside the detail."""
HATCHES = ((1.6, 45.0), (1.6, 135.0), (2.2, 45.0), (1.1, 135.0), (2.2, 135.0), (1.1, 45.0))
"""Between lines [mm of paper] and their turn [degrees]; neighbours differ."""


@dataclass(frozen=True)
class Rim:
    """The rim at the front of a box."""

    parts: BoxParts
    rules: BoxRules

    @property
    def window(self) -> Area:
        """What is shown [mm, x and z]."""
        tray = self.parts.tray
        wall, rim = tray.outside.high[0], tray.outside.high[2]
        cover = self.parts.cover_plate
        top = cover.plate.top if cover else self.parts.lid.plate.top
        return (wall - INWARDS, rim - DOWN, wall + tray.flange + BEYOND, top + OVER)

    @property
    def scale(self) -> float:
        """The largest usual scale that its place takes: ISO 5455, enlargements from memory."""
        left, bottom, right, top = self.window
        room = (DETAIL[0] - WORDS - 28.0, DETAIL[1] - 36.0)
        most = min(room[0] / (right - left), room[1] / (top - bottom))
        return max([scale for scale in (5.0, 2.0, 1.0, 0.5, 0.2) if scale <= most], default=0.1)


def draw_rim(
    board: Board, rim: Rim, cuts: Sequence[tuple[BoxItem, Sequence[shapely.Polygon]]], area: Area
) -> None:
    """The detail in the left part of an area, what its parts are at the right."""
    left, bottom, right, top = rim.window
    scale = rim.scale
    wide, high = (right - left) * scale, (top - bottom) * scale
    middle = (area[1] + area[3]) / 2.0
    corner = (area[0] + 22.0, middle - high / 2.0)
    origin = (corner[0] - left * scale, corner[1] - bottom * scale)
    window = shapely.box(left, bottom, right, top)
    said: list[tuple[Point, str]] = []
    for (item, faces), (apart, turn) in zip(cuts, HATCHES * len(cuts), strict=False):
        shown = [piece for face in faces for piece in _within(face, window)]
        for piece in shown:
            board.add(moved(line, scale, origin) for line in _edges(piece, window))
            on_paper = shapely.transform(piece, lambda points: points * scale + origin)
            board.add(hatching(on_paper, apart, turn))
        if shown:
            point = _told_at(max(shown, key=lambda piece: piece.area))
            said.append((_on(point, scale, origin), f"{item.item}  {_words(rim, item)}"))
    board.add(_screw_line(rim, origin))
    _say(board, said, corner[0] + wide + 8.0, (corner[1], corner[1] + high), area[2])
    _measure(board, rim, origin, corner)


def _within(face: shapely.Polygon, window: shapely.Polygon) -> list[shapely.Polygon]:
    """The part of a face that is shown."""
    cut = face.intersection(window)
    return [
        piece
        for piece in getattr(cut, "geoms", [cut])
        if isinstance(piece, shapely.Polygon) and piece.area > 0
    ]


def _edges(face: shapely.Polygon, window: shapely.Polygon) -> list[Line]:
    """Edges of a face, those where the picture ends left out."""
    lines: list[Line] = []
    border = window.exterior.buffer(1e-6)
    for ring in (face.exterior, *face.interiors):
        points = list(ring.coords)
        for one, other in pairwise(points):
            if not border.contains(shapely.LineString([one, other])):
                lines.append(Line((one[0], one[1]), (other[0], other[1]), "visible"))
    return lines


def _told_at(face: shapely.Polygon) -> Point:
    """A place in a face, as far to the right as it goes but a little."""
    x, y, far, top = face.bounds
    for part in (0.92, 0.8, 0.65, 0.5):
        level = shapely.LineString([(x + part * (far - x), y - 1.0), (x + part * (far - x), top + 1.0)])
        crossed = level.intersection(face)
        if not crossed.is_empty:
            longest = max(getattr(crossed, "geoms", [crossed]), key=lambda piece: piece.length)
            middle = longest.interpolate(0.5, normalized=True)
            return (middle.x, middle.y)
    point = face.representative_point()
    return (point.x, point.y)


def _words(rim: Rim, item: BoxItem) -> str:
    """What an item at the rim is."""
    parts, rules = rim.parts, rim.rules
    if item.name == "tray":
        radius = f", inside radius {rules.bend_radius:g}" if rules.process == "folded" else ""
        return f"tray: wall {figure(parts.tray.thickness)}{radius}"
    if item.name == "lid":
        return f"lid {figure(parts.lid.plate.top - parts.lid.plate.bottom)}"
    if item.name == "cover plate" and parts.cover_plate:
        plate = parts.cover_plate.plate
        gap = plate.bottom - parts.lid.plate.top
        return f"cover plate {figure(plate.top - plate.bottom)}, {figure(gap)} above the lid"
    if item.name == "gasket":
        bought = f"gasket {rules.gasket_width:g} x {rules.gasket_thickness:g}"
        return f"{bought}, pressed to {figure(rules.gasket_pressed)}"
    if item.name == "liner":
        return f"liner {figure(rules.liner)}"
    return item.name


def _say(
    board: Board, said: Sequence[tuple[Point, str]], across: float, within: tuple[float, float], far: float
) -> None:
    """Words under one another at the right, each led to its part."""
    ordered = sorted(said, key=lambda one: -one[0][1])
    pitch = 9.0
    middle = (within[0] + within[1]) / 2.0 + 12.0
    top = middle + pitch * (len(ordered) - 1) / 2.0
    for place, (at, words) in enumerate(ordered):
        level = top - pitch * place
        room = far - across - 2.0
        text = Text(cut_to(words, 2.5, room), (across + 1.5, level - 1.25))
        lines = (Line((across, level), at, "dimension"), Circle(at, 0.5, "dimension", True))
        board.place([Placing(text, lines)])


def _on(place: Point, scale: float, origin: Point) -> Point:
    return (origin[0] + place[0] * scale, origin[1] + place[1] * scale)


def _measure(board: Board, rim: Rim, origin: Point, corner: Point) -> None:
    """Width of the flange and thickness of the wall under the detail, its rim to the top at the left."""
    tray, scale = rim.parts.tray, rim.scale
    wall, top = tray.outside.high[0], tray.outside.high[2]

    def at(x: float, z: float) -> Point:
        return _on((x, z), scale, origin)

    low = rim.window[1]
    row = corner[1] - 7.0
    if tray.flange:
        under = top - tray.thickness
        ends = (at(wall, under), at(wall + tray.flange, under))
        dimension(board, Measured(*ends, figure(tray.flange), row - 7.0, -1))
    ends = (at(wall - tray.thickness, low), at(wall, low))
    dimension(board, Measured(*ends, figure(tray.thickness), row, -1))
    lid = rim.parts.lid.plate
    left = rim.window[0]
    levels = (at(left, top), at(left, lid.top))
    dimension(board, Measured(*levels, figure(lid.top - top), corner[0] - 7.0, -1, True))


def screw_at(parts: BoxParts) -> float | None:
    """Where [mm, x] the middle of the flange's hole at the front is; None where there is none."""
    tray = parts.tray
    return max((x for x, _ in tray.holes if x > tray.outside.high[0]), default=None)


def _screw_line(rim: Rim, origin: Point) -> list[Line]:
    """The middle of a lid screw."""
    x = screw_at(rim.parts)
    if x is None:
        return []
    rim_level, top = rim.parts.tray.outside.high[2], rim.parts.lid.plate.top
    ends = ((x, rim_level - rim.parts.tray.thickness - 5.0), (x, top + 5.0))
    start, end = (_on(point, rim.scale, origin) for point in ends)
    return [Line(start, end, "centre")]
