"""A bay as surveyed, in one view: outline, how far the survey may be out, where a box's walls may reach."""

from collections.abc import Sequence

from boxfit.bay import Bay, Point, Shell
from boxfit.report.balloons import draw_hidden
from boxfit.report.look import BAY, Ink
from boxfit.report.panel import Panel
from boxfit.report.paper import Sheet
from boxfit.report.parts import draw_keepouts, draw_opening
from boxfit.report.projection import PLAN, View, bay_outlines, bay_points, extents
from boxfit.report.room import kept
from boxfit.surface import Outline

ROOM = Ink(None, fill=BAY.fill)
OUTLINE = Ink(BAY.colour, 0.5)
BAND = Ink(None, fill="#b4c2cc")
ALLOWANCE = Ink("#0b5a8f", 0.9, (4, 1.6))
CHORDS = 16
"""Straight pieces to a quarter of an arc where an outline moves round a corner."""
FEW = 12
"""Corners of a room of any shape are all told up to this many."""


def moved_outlines(outlines: Sequence[Outline], by: float) -> tuple[Outline, ...]:
    """Outlines with every point `by` [mm] further out, or further in where negative.

    Outwards they may join, inwards they may fall into several parts, or vanish.
    """
    from shapely import Polygon, unary_union

    moved = unary_union([Polygon(outline) for outline in outlines]).buffer(by, quad_segs=CHORDS)
    parts = [part for part in getattr(moved, "geoms", [moved]) if part.area > 0]
    return tuple(tuple((x, y) for x, y in list(part.exterior.coords)[:-1]) for part in parts)


def moved_room(view: View, bay: Bay, by: float) -> tuple[Outline, ...]:
    """Outlines in the view of the room grown by `by` [mm] at every surface; none where nothing is left.

    A prism's are exact. Those of a room of any shape are its outlines in the view moved: a box stays within
    them, yet may have to keep further in where the room is narrower before or behind.
    """
    room = bay.room
    if isinstance(room, Shell):
        return moved_outlines(bay_outlines(view, bay), by)
    floor, top = room.floor - by, room.top + by
    if floor >= top:
        return ()
    plans = moved_outlines((room.outline,), by)
    if view is PLAN:
        return tuple(tuple(view.flat((x, y, 0.0)) for x, y in plan) for plan in plans)
    return tuple(_upright(view, plan, floor, top) for plan in plans)


def _upright(view: View, plan: Outline, floor: float, top: float) -> Outline:
    """Floor and top between the ends of a plan, in side or rear view."""
    across = [view.flat((x, y, 0.0))[0] for x, y in plan]
    left, right = min(across), max(across)
    return ((left, floor), (right, floor), (right, top), (left, top))


def allowance_told(bay: Bay) -> str:
    """What keeps a box's walls from the surveyed outline [mm]."""
    clearance, off = bay.distance - bay.tolerance, kept(bay) - bay.distance
    smoothed = f" + {told(off)} for what triangles leave out" if off else ""
    return f"{bay.tolerance:g} tolerance + {clearance:g} clearance{smoothed} = {told(kept(bay))}"


def draw_survey(sheet: Sheet, panel: Panel, bay: Bay) -> None:
    """The room with its band and allowance, the keep-outs, and the way in, without words."""
    view = panel.view
    for ink, by in ((BAND, bay.tolerance), (ROOM, -bay.tolerance)):
        for outline in moved_room(view, bay, by):
            sheet.face(panel.outline(outline), ink)
    for outline in bay_outlines(view, bay):
        sheet.face(panel.outline(outline), OUTLINE)
    draw_keepouts(sheet, panel, bay)
    draw_hidden(sheet, panel, bay)
    for outline in moved_room(view, bay, -kept(bay)):
        sheet.face(panel.outline(outline), ALLOWANCE)
    draw_opening(sheet, panel, bay)


def told(value: float) -> str:
    """A coordinate [mm] to the tenth, without a sign before nought.

    >>> told(-60.0), told(-1020.125), told(-0.0)
    ('-60', '-1020.1', '0')
    """
    return f"{round(value, 1) + 0.0:.10g}"


def corners(view: View, bay: Bay) -> tuple[tuple[Point, str], ...]:
    """Corners in the view with their coordinates [mm]: all of a plan, otherwise the two extreme ones.

    Those of a plan that lie furthest out come first. Of a room of any shape all where they are few, otherwise
    those that lie furthest out.
    """
    if isinstance(bay.room, Shell):
        return _corners_of_any(view, bay)
    low, high = extents(bay)
    if view is PLAN:
        inner = [
            (x not in (low[0], high[0]) and y not in (low[1], high[1]), (x, y)) for x, y in bay.room.outline
        ]
        ordered = [point for _, point in sorted(inner, key=lambda pair: pair[0])]
        return tuple((view.flat((x, y, 0.0)), f"x {told(x)}, y {told(y)}") for x, y in ordered)
    (across, way), (upwards, _) = view.across, view.upwards
    left, right = (high, low) if way < 0 else (low, high)
    name = "xyz"[across]
    return tuple(
        ((way * end[across], level[upwards]), f"{name} {told(end[across])}, z {told(level[upwards])}")
        for end, level in ((left, low), (right, high))
    )


def _corners_of_any(view: View, bay: Bay) -> tuple[tuple[Point, str], ...]:
    """All corners where they are few, otherwise the furthest to the left, right, bottom and top."""
    (across, way), (upwards, turn) = view.across, view.upwards
    points = bay_points(view, bay)
    if len(points) > FEW:
        ends = (min(points), max(points), min(points, key=_upwards), max(points, key=_upwards))
        points = tuple(dict.fromkeys(ends))
    names = ("xyz"[across], "xyz"[upwards])
    return tuple((p, f"{names[0]} {told(way * p[0])}, {names[1]} {told(turn * p[1])}") for p in points)


def _upwards(point: Point) -> float:
    return point[1]
