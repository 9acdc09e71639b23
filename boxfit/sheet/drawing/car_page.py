"""The arrangement in the car: boxes in their bays from the side and from above, axles, ground and masses."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import cos, radians, sin

from boxfit.bay import Bay, Point, Prism
from boxfit.box.numbers import bay_letters
from boxfit.box.whole import BuiltBox
from boxfit.box_shape import grown
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.sheet.drawing.arrange import arranged
from boxfit.sheet.drawing.board import Area, Board, Placing
from boxfit.sheet.drawing.car_tables import box_table, mass_notes, weight_table
from boxfit.sheet.drawing.dimension import FIRST_ROW, ROW, Measured, dimension, dimensions, figure
from boxfit.sheet.drawing.flat_page import labels
from boxfit.sheet.drawing.letters import cut_to, width_of
from boxfit.sheet.drawing.marks import Circle, Line, Mark, Page, Style, Text
from boxfit.sheet.drawing.title import Title
from boxfit.surface import Outline

BETWEEN_VIEWS = 24.0
"""Paper [mm] between the two views."""
BEYOND = 4.0
"""Dimension lines begin so far [mm of paper] past all that is drawn."""
SHORTEST_NAME = 30.0
"""A bay's name is cut short to no less than this [mm of paper]."""
PAST = 120.0
"""Axle lines and the ground run on so far [mm of the car]."""


class Scene:
    """The two views on paper: where places of the car come to lie."""

    def __init__(self, scale: float, side: Point, plan: Point) -> None:
        self.scale, self._side, self._plan = scale, side, plan

    def side(self, x: float, z: float) -> Point:
        """A place [mm] seen from the right."""
        return (self._side[0] + x * self.scale, self._side[1] + z * self.scale)

    def plan(self, x: float, y: float) -> Point:
        """A place [mm] seen from above."""
        return (self._plan[0] + x * self.scale, self._plan[1] + y * self.scale)


def extent(car: Car, built: Sequence[BuiltBox]) -> tuple[Point, Point, float]:
    """From where to where x and y run [mm], and the highest level."""
    xs, ys, zs = [0.0, -car.wheelbase], [], [0.0]
    half = max(car.track_front, car.track_rear) / 2.0
    ys += [-half, half]
    for bay in car.bays:
        plan, side = outlines(bay)
        xs += [x for outline in plan for x, _ in outline]
        ys += [y for outline in plan for _, y in outline]
        zs += [z for outline in side for _, z in outline]
    for one in built:
        flange = one.bay.box.flange
        xs += [one.box.low[0] - flange, one.box.high[0] + flange]
        ys += [one.box.low[1] - flange, one.box.high[1] + flange]
        zs.append(one.box.high[2])
    return (min(xs) - PAST, max(xs) + PAST), (min(ys) - PAST, max(ys) + PAST), max(zs) + PAST


def outlines(bay: Bay) -> tuple[tuple[Outline, ...], tuple[Outline, ...]]:
    """A bay's room in plan and from the side [mm]."""
    if not isinstance(bay.room, Prism):
        return bay.room.plan, bay.room.side
    xs = [x for x, _ in bay.room.outline]
    low, high, floor, top = min(xs), max(xs), bay.room.floor, bay.room.top
    return (bay.room.outline,), (((low, floor), (high, floor), (high, top), (low, top)),)


def car_page(car: Car, module: Module, layout: Layout, built: tuple[BuiltBox, ...], title: Title) -> Page:
    """The sheet of the arrangement."""
    (rear, front), (right, left), top = extent(car, built)
    rows = max(1, len(built)) * ROW + FIRST_ROW
    letters = bay_letters([bay.name for bay in car.bays])
    names = [f"{letters[one.bay.name]}{one.number}" for one in built]

    def size_at(scale: float) -> Point:
        wide = (front - rear) * scale + 2.0 * (rows + 16.0)
        return (wide, (top + left - right) * scale + BETWEEN_VIEWS + rows + 8.0)

    tables = (box_table(module, built, names), weight_table(car, layout), mass_notes(layout))
    chosen = arranged(size_at, tables, least=0.05)
    board = chosen.board(title)
    scale = chosen.scale
    scene = _scene(chosen.views, scale, size_at(scale), ((rear, front), (right, left), top))
    board.add(_car_lines(scene, car, ((rear, front), (right, left), top)))
    for bay in car.bays:
        board.add(_bay_lines(scene, bay))
    for one in built:
        board.add(_box_lines(scene, one))
    board.add(_centre_of_mass(scene, layout))
    _measure(board, scene, car, built)
    _name(board, scene, car, built, names)
    _name_marks(board, scene, car, layout, top)
    return board.page()


def _scene(area: Area, scale: float, size: Point, reach: tuple[Point, Point, float]) -> Scene:
    """The views about the middle of an area, the side above the plan."""
    (rear, front), (_, left), top = reach
    across = (area[0] + area[2]) / 2.0 - (rear + front) / 2.0 * scale
    upper = (area[1] + area[3] + size[1]) / 2.0
    ground = upper - 4.0 - top * scale
    return Scene(scale, (across, ground), (across, ground - BETWEEN_VIEWS - left * scale))


def _closed(points: Sequence[Point], style: Style, width: float | None = None) -> Iterator[Line]:
    for one, other in pairwise((*points, points[0])):
        yield Line(one, other, style, width)


def _car_lines(scene: Scene, car: Car, reach: tuple[Point, Point, float]) -> Iterator[Mark]:
    """Ground, axles, the car's centre line, and where the wheels stand."""
    (rear, front), (right, left), top = reach
    yield Line(scene.side(rear, 0.0), scene.side(front, 0.0), "visible")
    yield Line(scene.plan(rear, 0.0), scene.plan(front, 0.0), "centre")
    for x, track in ((0.0, car.track_front), (-car.wheelbase, car.track_rear)):
        yield Line(scene.side(x, -PAST / 2.0), scene.side(x, top), "centre")
        yield Line(scene.plan(x, right), scene.plan(x, left), "centre")
        for y in (-track / 2.0, track / 2.0):
            yield Circle(scene.plan(x, y), 1.5, "dimension")
            yield Line(scene.plan(x - PAST, y), scene.plan(x + PAST, y), "centre")


def _bay_lines(scene: Scene, bay: Bay) -> Iterator[Line]:
    """A bay's room in both views."""
    plan, side = outlines(bay)
    for outline in plan:
        yield from _closed([scene.plan(*point) for point in outline], "adjacent")
    for outline in side:
        yield from _closed([scene.side(*point) for point in outline], "adjacent")


def _box_lines(scene: Scene, one: BuiltBox) -> Iterator[Line]:
    """A box from above with its lid, what is narrower below it dashed; from the side tier by tier."""
    box, flange = one.box, one.bay.box.flange
    lid = grown(box.outlines[-1], flange) if flange else box.outlines[-1]
    yield from _closed([scene.plan(*point) for point in lid], "visible")
    for outline in dict.fromkeys(box.outlines):
        yield from _closed([scene.plan(*point) for point in outline], "hidden")
    rim = box.high[2] - one.bay.box.rim_below_top
    for band in one.parts.tray.bands:
        low, high = (band.low[0], band.bottom), (band.high[0], band.top)
        yield from _closed(_corners(scene, low, high), "visible")
    x, far = min(x for x, _ in lid), max(x for x, _ in lid)
    yield from _closed(_corners(scene, (x, rim), (far, box.high[2])), "visible")


def _corners(scene: Scene, low: Point, high: Point) -> list[Point]:
    """A rectangle seen from the side, on paper."""
    corners = (low, (high[0], low[1]), high, (low[0], high[1]))
    return [scene.side(*corner) for corner in corners]


def _centre_of_mass(scene: Scene, layout: Layout) -> Iterator[Mark]:
    """The usual sign: a ring with a cross in it."""
    centre = layout.weights.centre_of_mass
    if centre is None:
        return
    x, y, z = centre
    places = [scene.plan(x, y), *([scene.side(x, z)] if z is not None else [])]
    for place in places:
        yield Circle(place, 2.2, "visible")
        yield Circle(place, 0.7, "visible", True)
        for turn in (0.0, 90.0):
            way = (3.4 * cos(radians(turn)), 3.4 * sin(radians(turn)))
            ends = ((place[0] - way[0], place[1] - way[1]), (place[0] + way[0], place[1] + way[1]))
            yield Line(*ends, "dimension")


def _measure(board: Board, scene: Scene, car: Car, built: Sequence[BuiltBox]) -> None:
    """Each box from the front axle, from the centre line and from the ground; wheelbase and tracks."""
    row = scene.plan(0.0, extent(car, built)[1][0])[1] - BEYOND
    found: list[Measured] = []
    for place, one in enumerate(built):
        for beside, (start, end) in zip((-1, 1), _from_middle(one.box.low[0], one.box.high[0]), strict=True):
            points = (scene.plan(start, one.box.low[1]), scene.plan(end, one.box.low[1]))
            level = row - ROW * place
            found.append(Measured(*points, figure(end - start), level, -1, beside=beside))
    dimensions(board, found)
    _wheelbase(board, scene, car)
    _upright(board, scene, car, built)


def _wheelbase(board: Board, scene: Scene, car: Car) -> None:
    """Under the ground of the side view."""
    ends = (scene.side(-car.wheelbase, 0.0), scene.side(0.0, 0.0))
    words = f"wheelbase {figure(car.wheelbase)}"
    dimension(board, Measured(*ends, words, ends[0][1] - FIRST_ROW, -1))


def _upright(board: Board, scene: Scene, car: Car, built: Sequence[BuiltBox]) -> None:
    """Heights beside the side view and widths beside the plan, at the end that the box is nearer to."""
    xs = [x for one in built for x in (one.box.low[0], one.box.high[0])]
    (rear, front), _, _ = extent(car, built)
    counts, found = {-1: 0, 1: 0}, list[Measured]()
    for one in built:
        box = one.box
        ahead = box.low[0] + box.high[0] > min(xs) + max(xs)
        way = 1 if ahead else -1
        x = box.high[0] if ahead else box.low[0]
        edge = front if ahead else rear
        row = scene.side(edge, 0.0)[0] + way * (BEYOND + ROW * counts[way])
        counts[way] += 1
        for start, end in ((0.0, box.low[2]), (box.low[2], box.high[2])):
            points = (scene.side(x, start), scene.side(x, end))
            found.append(Measured(*points, figure(end - start), row, way, True))
        for beside, (start, end) in zip((-1, 1), _from_middle(box.low[1], box.high[1]), strict=True):
            points = (scene.plan(x, start), scene.plan(x, end))
            found.append(Measured(*points, figure(end - start), row, way, True, beside))
    dimensions(board, found)


def _from_middle(low: float, high: float) -> list[Point]:
    """Two spans that tell where something is from the origin of an axis, the lower first."""
    if low * high < 0.0:
        return [(low, 0.0), (0.0, high)]
    return [(0.0, low), (low, high)] if low >= 0.0 else [(low, high), (high, 0.0)]


def _name(board: Board, scene: Scene, car: Car, built: Sequence[BuiltBox], names: Sequence[str]) -> None:
    """Boxes by their letters inside them, bays by name beside their outlines."""
    for one, name in zip(built, names, strict=True):
        (x, y, z), (a, b, c) = one.box.low, one.box.high
        for at in (scene.plan((x + a) / 2.0, (y + b) / 2.0), scene.side((x + a) / 2.0, (z + c) / 2.0)):
            board.place(_inside(name, at))
    for bay in car.bays:
        plan, _ = outlines(bay)
        xs, ys = zip(*plan[0], strict=True)
        corner, other = scene.plan(min(xs), max(ys)), scene.plan(max(xs), max(ys))
        name = cut_to(bay.name, 2.5, max(abs(other[0] - corner[0]) - 4.0, SHORTEST_NAME))
        half = width_of(name, 2.5) / 2.0
        spots = [
            (corner[0] + half + 2.0 + 4.0 * k, corner[1] + up)
            for up in (1.5, 5.0, 9.0, -5.0)
            for k in range(9)
        ]
        board.place(Placing(Text(name, spot, 2.5, "middle")) for spot in spots)


def _inside(name: str, at: Point) -> Iterator[Placing]:
    """A name about the middle of a box, moved until it is clear of lines."""
    for reach in (0.0, 4.0, 7.0, 10.0, 14.0):
        for step in range(1 if reach == 0.0 else 12):
            turn = radians(30.0 * step)
            spot = (at[0] + reach * cos(turn), at[1] + reach * sin(turn) - 1.75)
            yield Placing(Text(name, spot, 3.5, "middle"))
    yield from labels(name, at, 1.0, 0.0)


def _name_marks(board: Board, scene: Scene, car: Car, layout: Layout, top: float) -> None:
    """What axles, ground, datum and centre of mass are called, and the tracks."""
    for x, track, name in ((0.0, car.track_front, "front"), (-car.wheelbase, car.track_rear, "rear")):
        at = scene.side(x, top)
        words = f"{name} axle, track {figure(track)}"
        spots = [(at[0] + side, at[1] - 3.0 - 4.0 * k) for k in range(8) for side in (1.5, -1.5)]
        board.place(Placing(Text(words, spot, 2.5, "left" if spot[0] > at[0] else "right")) for spot in spots)
    if layout.weights.centre_of_mass:
        x, y, z = layout.weights.centre_of_mass
        board.place(labels("centre of mass", scene.plan(x, y), 2.6, 0.0))
        if z is not None:
            board.place(labels("centre of mass", scene.side(x, z), 2.6, 0.0))
    board.place(labels("datum", scene.side(0.0, 0.0), 1.2, 0.0))
    board.add(_datum(scene))


def _datum(scene: Scene) -> Iterator[Mark]:
    """The origin: on the ground, on the centre line, under the front axle."""
    for place in (scene.side(0.0, 0.0), scene.plan(0.0, 0.0)):
        yield Circle(place, 1.2, "dimension")
        yield Circle(place, 0.5, "dimension", True)
