"""The whole car: axles, ground or centre line, bays, boxes, the balance point and the driver."""

from dataclasses import dataclass

from boxfit.bay import Point, Vector
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.report.area import Area, area_of
from boxfit.report.balance import DRIVER, ahead_of_driver, from_driver, sideways
from boxfit.report.dimension import FIRST, STEP, Span, draw_across
from boxfit.report.look import (
    AXLE,
    BALANCE,
    BALANCE_LINE,
    BALANCE_QUARTER,
    GROUND,
    PERSON,
    SMALL,
    SMALL_LEFT,
    SMALL_RIGHT,
    WHEEL,
    Ink,
)
from boxfit.report.panel import Panel, fitted_panel
from boxfit.report.paper import Sheet
from boxfit.report.parts import boxes_of, draw_bay, draw_boxes
from boxfit.report.placing import around, lead, place
from boxfit.report.projection import PLAN, REAR, SIDE, View, bay_points, extents

OVERHANG = 90.0
"""How far axle and centre lines are drawn past what they mark [mm of the car]."""
ROUND = 2.2
"""Radius of the balance mark [mm of paper]."""


@dataclass(frozen=True)
class Scene:
    """What a page shows: the car, the layout, and the way of looking at them."""

    car: Car
    layout: Layout
    view: View

    @property
    def height(self) -> float:
        """The highest thing drawn [mm above ground]."""
        tops = [bay.room.top for bay in self.car.bays]
        tops += [box.high[2] for bay in self.layout.bays for box in bay.boxes]
        return max(tops, default=500.0)

    @property
    def balance(self) -> Vector | None:
        """The balance point; at ground level where its height is not known."""
        centre = self.layout.weights.centre_of_mass
        return None if centre is None else (centre[0], centre[1], centre[2] or 0.0)

    @property
    def driver(self) -> Vector | None:
        """Where the driver's mass is."""
        found = [carried.at for carried in self.car.carried if carried.name.strip().casefold() == DRIVER]
        return found[0] if found else None


def draw_overview(sheet: Sheet, scene: Scene, room: Area) -> Panel:
    """Draw the whole car into a place on the sheet."""
    into = Area(room.left + 6.0, room.bottom + FIRST + STEP + 5.0, room.right - 6.0, room.top - 8.0)
    corners = _corners(scene)
    panel = fitted_panel(scene.view, [scene.view.flat(corner) for corner in corners], into)
    for bay in sorted(scene.car.bays, key=lambda bay: scene.view.nearness(*extents(bay))):
        draw_bay(sheet, panel, bay)
        draw_boxes(sheet, panel, boxes_of(scene.layout, bay), bay.box)
    _draw_lines(sheet, scene, panel)
    _draw_axles(sheet, scene, panel)
    _draw_people(sheet, scene, panel)
    drawing = area_of([panel.at(corner) for corner in corners])
    draw_across(sheet, _spans(scene, panel), drawing.bottom)
    _write_ways(sheet, scene, room)
    _write_names(sheet, scene, panel, room)
    return panel


def _corners(scene: Scene) -> list[Vector]:
    """Points of the car that the picture must take in."""
    car = scene.car
    half = max(car.track_front, car.track_rear) / 2 + OVERHANG
    base = car.wheelbase + OVERHANG
    low, high = (OVERHANG, half, 0.0), (-base, -half, scene.height + OVERHANG)
    corners: list[Vector] = [low, high]
    for bay in car.bays:
        corners += extents(bay)
    if scene.balance:
        corners.append(scene.balance)
    if scene.driver:
        corners.append(scene.driver)
    return corners


def _draw_lines(sheet: Sheet, scene: Scene, panel: Panel) -> None:
    """Ground line, or centre line from end to end."""
    corners = _corners(scene)
    across = [panel.at(corner)[0] for corner in corners]
    left, right = min(across) - 3.0, max(across) + 3.0
    level = panel.at((0.0, 0.0, 0.0))[1]
    _rule(sheet, (left, level), (right, level), AXLE if scene.view is PLAN else GROUND)
    if scene.view is REAR:
        middle = panel.at((0.0, 0.0, 0.0))[0]
        top = panel.at((0.0, 0.0, scene.height + OVERHANG))[1]
        _rule(sheet, (middle, level), (middle, top), AXLE)


def _rule(sheet: Sheet, start: Point, end: Point, ink: Ink) -> None:
    """A straight line that words keep off."""
    sheet.line((start, end), ink)
    sheet.taken.append(area_of((start, end)).inset(-0.2))


def _axles(scene: Scene) -> tuple[tuple[str, float, float], ...]:
    car = scene.car
    return (("front axle", 0.0, car.track_front / 2), ("rear axle", -car.wheelbase, car.track_rear / 2))


def _draw_axles(sheet: Sheet, scene: Scene, panel: Panel) -> None:
    """Axle lines, and a thick stroke where each wheel's middle runs."""
    for name, x, half in _axles(scene):
        if scene.view is PLAN:
            ends = [panel.at((x, side * (half + OVERHANG), 0.0)) for side in (-1, 1)]
            wheels = [[panel.at((x + d, side * half, 0.0)) for d in (-120, 120)] for side in (-1, 1)]
        elif scene.view is SIDE:
            ends = [panel.at((x, 0.0, z)) for z in (0.0, scene.height + OVERHANG)]
            wheels = [[panel.at((x + d, 0.0, 0.0)) for d in (-60, 60)]]
        else:
            ends = []
            wheels = [[panel.at((x, side * half + d, 0.0)) for d in (-40, 40)] for side in (-1, 1)]
        for wheel in wheels:
            sheet.line(wheel, WHEEL)
        if ends:
            _rule(sheet, ends[0], ends[1], AXLE)
            top = max(ends, key=lambda end: end[1])
            sheet.write(name, (top[0], top[1] + 2.0), SMALL)


def _draw_people(sheet: Sheet, scene: Scene, panel: Panel) -> None:
    """The driver, and the balance mark: a round with two black quarters."""
    if scene.driver:
        sheet.round(panel.at(scene.driver), ROUND, PERSON)
    centre = scene.layout.weights.centre_of_mass
    if centre is None or scene.balance is None:
        return
    at = panel.at(scene.balance)
    if centre[2] is None and scene.view is not PLAN:
        _rule(sheet, at, panel.at((centre[0], centre[1], scene.height + OVERHANG)), BALANCE_LINE)
    sheet.round(at, ROUND, BALANCE)
    for start in (0.0, 180.0):
        sheet.quarter(at, ROUND, start, BALANCE_QUARTER)


def _spans(scene: Scene, panel: Panel) -> tuple[Span, ...]:
    """Balance point and wheelbase from the front axle; seen from behind, the rear track."""
    car = scene.car
    if scene.view is REAR:
        left, right = (panel.at((0.0, side * car.track_rear / 2, 0.0))[0] for side in (1, -1))
        return (Span(left, right, f"rear track {car.track_rear:.0f}"),)
    front, rear = panel.at((0.0, 0.0, 0.0))[0], panel.at((-car.wheelbase, 0.0, 0.0))[0]
    spans = [Span(front, rear, f"wheelbase {car.wheelbase:.0f}")]
    if scene.balance:
        at = panel.at(scene.balance)[0]
        words = f"balance point {abs(scene.balance[0]):.0f}"
        spans.insert(0, Span(min(front, at), max(front, at), words))
    return tuple(spans)


def _write_names(sheet: Sheet, scene: Scene, panel: Panel, room: Area) -> None:
    """Names of the bays, the driver and the balance point, each where there is room for it."""
    solid = [area_of(panel.outline(bay_points(scene.view, bay))) for bay in scene.car.bays]
    marks = [
        area_of((panel.at(at), panel.at(at))).inset(-ROUND)
        for at in (scene.balance, scene.driver)
        if at is not None
    ]
    named: list[tuple[str, Area]] = []
    if scene.balance:
        named.append((_balance_name(scene), marks[0]))
    if scene.driver:
        named.append(("driver", marks[-1]))
    named += [(bay.name, area) for bay, area in zip(scene.car.bays, solid, strict=True)]
    for words, target in named:
        candidates = list(around(target, SMALL))
        spot = place(sheet, words, candidates, room, (*solid, *marks)) or place(
            sheet, words, candidates, room, marks
        )
        if spot:
            lead(sheet, spot, target)


def _balance_name(scene: Scene) -> str:
    """What is written at the balance mark: its place beside the centre line, or ahead of the driver."""
    centre = scene.layout.weights.centre_of_mass
    distance = ahead_of_driver(scene.car, scene.layout)
    words = ["balance point"]
    if scene.view is REAR and centre:
        words.append(sideways(centre[1]))
    elif distance is not None:
        words.append(from_driver(distance))
    if scene.view is not PLAN and centre and centre[2] is None:
        words.append("height not known")
    return ", ".join(words)


def _write_ways(sheet: Sheet, scene: Scene, room: Area) -> None:
    """Which end or side of the car lies which way."""
    left, right = ("left", "right") if scene.view is REAR else ("front", "rear")
    height = room.top - 2.5
    sheet.write(f"◄ {left}", (room.left, height), SMALL_LEFT)
    sheet.write(f"{right} ►", (room.right, height), SMALL_RIGHT)
