"""From a bay to the free plan for a box between given levels, insertion included."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise

import shapely

from boxfit.bay import Bay, Keepout, Opening, Point, Prism, Shell, Surface
from boxfit.space.covered import loosened, loosened_tolerance
from boxfit.space.opening import gate_pieces, way_in_pieces
from boxfit.space.plan import NOWHERE, SLACK, PlanRoom
from boxfit.space.region import EVERYWHERE, kept_clear, room_left
from boxfit.space.shadow import Levels, Polygon, grown, shadow
from boxfit.surface import Outline


@dataclass(frozen=True)
class BoxLevels:
    """Levels [mm] of a box: its underside, the underside of its flange, the top of its lid."""

    bottom: float
    flange_bottom: float
    top: float

    @property
    def body(self) -> Levels:
        """Levels of walls, floor and lid, less the slack that lets what fits to a hair fit."""
        return (self.bottom + SLACK, self.top - SLACK)

    @property
    def rim(self) -> Levels:
        """Levels of the flange and the lid on it, less the slack."""
        return (self.flange_bottom + SLACK, self.top - SLACK)


def edges_of(outline: tuple[Point, ...]) -> tuple[tuple[Point, Point], ...]:
    """The sides of an outline.

    >>> edges_of(((0, 0), (1, 0), (0, 1)))
    (((0, 0), (1, 0)), ((1, 0), (0, 1)), ((0, 1), (0, 0)))
    """
    return tuple(zip(outline, outline[1:] + outline[:1], strict=True))


def widened(piece: Polygon, flange: float) -> Polygon:
    """A piece that the flange must not meet, as a piece that the box within the flange must not meet [mm]."""
    if flange == 0:
        return piece
    sides = (-flange, flange)
    return tuple((x + dx, y + dy) for x, y in piece for dx in sides for dy in sides)


def plan_room(bay: Bay, levels: BoxLevels) -> PlanRoom:
    """Where the plan of a box's walls [mm] may lie so that box and flange keep every distance and get in.

    Levels outside the bay's floor and top, less `bay.distance`, leave no room at all. Where the rules ask for
    stiffening bars, the walls keep their depth more all round, and the floor more below.
    """
    room, levels = bay.room, _with_bars(bay, levels)
    if levels.bottom < room.floor + bay.distance - 1e-6 or levels.top > room.top - bay.distance + 1e-6:
        return NOWHERE
    return _together(_prism(bay, room) if isinstance(room, Prism) else _shell(bay, room, levels), bay, levels)


def _with_bars(bay: Bay, levels: BoxLevels) -> BoxLevels:
    """The levels from the lower edge of the bars under the floor on."""
    return replace(levels, bottom=levels.bottom - bay.box.bars_below)


def rim_room(bay: Bay, shell: Shell, levels: BoxLevels) -> PlanRoom:
    """What `plan_room` leaves and more, quickly drawn: of a shell only what the flange asks."""
    rim = room_left(bay, shell, levels.rim)
    if rim.is_empty:
        return NOWHERE
    return _together(PlanRoom((rim,), _with_flange(bay, (), _sides(rim))), bay, _with_bars(bay, levels))


def outline_room(bay: Bay, shell: Shell, levels: BoxLevels) -> PlanRoom | None:
    """What `plan_room` leaves and more, quickest drawn: the room taken to be as wide all the way up.

    A box within a closed surface lies within what the surface shows from above, and no nearer to its edge
    than to the surface. Parts too small for an outline (`LEAST_PART`) are left out. None for a "body", which
    is open.
    """
    if shell.reads == "body":
        return None
    # Outlines are rounded, and may touch themselves by a hair.
    inside = shapely.union_all([shapely.make_valid(shapely.Polygon(outline)) for outline in shell.plan])
    walls = tuple(wall for outline in shell.plan for wall in _walls(bay, outline))
    return _together(PlanRoom((inside,), walls), bay, _with_bars(bay, levels))


def _together(room: PlanRoom, bay: Bay, levels: BoxLevels) -> PlanRoom:
    """What the room leaves, less what stays in it and what the opening asks."""
    if room == NOWHERE:
        return NOWHERE
    parts = [room, *(_keepout(bay, keepout, levels) for keepout in bay.keepouts)]
    if bay.opening is not None:
        body, rim = way_in_pieces(bay, bay.opening, (levels.body, levels.rim))
        parts.append(PlanRoom((), _with_flange(bay, body, rim)))
        parts.append(_gate(bay, bay.opening, levels))
    inside = tuple(region for part in parts for region in part.inside)
    return PlanRoom(inside, tuple(dict.fromkeys(piece for part in parts for piece in part.pieces)))


def loosened_bay(bay: Bay) -> Bay | None:
    """A bay whose free plans leave out nothing that is free in this one, drawn by whatever means.

    Plain bays are their own; None where surfaces are drawn too coarsely for the distances asked.
    """
    surfaces = [bay.room.surface] if isinstance(bay.room, Shell) else []
    distance = loosened(surfaces[0], bay.distance) if surfaces else bay.distance
    surfaces += [keepout.solid for keepout in bay.keepouts if isinstance(keepout.solid, Surface)]
    keepouts = tuple(_loosened(keepout) for keepout in bay.keepouts)
    if min([distance, *(keepout.distance for keepout in keepouts)]) < 0.0:
        return None
    tolerances = (loosened_tolerance(surface, bay.tolerance) for surface in surfaces)
    tolerance = min(tolerances, default=bay.tolerance)
    if tolerance == bay.tolerance and distance == bay.distance and keepouts == bay.keepouts:
        return bay
    opening = bay.opening if tolerance >= 0.0 else None
    return replace(bay, distance=distance, tolerance=max(tolerance, 0.0), keepouts=keepouts, opening=opening)


def _loosened(keepout: Keepout) -> Keepout:
    if not isinstance(keepout.solid, Surface):
        return keepout
    return replace(keepout, distance=loosened(keepout.solid, keepout.distance))


def _with_flange(bay: Bay, body: Iterable[Polygon], rim: Iterable[Polygon]) -> tuple[Polygon, ...]:
    """What the walls must not meet: pieces in the way of them and their bars, and pieces in the flange's.

    Bars that stand out further than the flange do so up to the lid.
    """
    beside, reach = bay.box.bars_beside, bay.box.reach
    return (*(widened(piece, beside) for piece in body), *(widened(piece, reach) for piece in rim))


def _prism(bay: Bay, room: Prism) -> PlanRoom:
    """The walls of a prism."""
    return PlanRoom((shapely.Polygon(room.outline),), _walls(bay, room.outline))


def _walls(bay: Bay, outline: Outline) -> tuple[Polygon, ...]:
    """Upright walls along an outline."""
    return _with_flange(bay, (), [grown(edge, bay.distance) for edge in edges_of(outline)])


def _shell(bay: Bay, shell: Shell, levels: BoxLevels) -> PlanRoom:
    """The surface of a room of any shape, at rest and on the way in."""
    body, rim = (room_left(bay, shell, band) for band in (levels.body, levels.rim))
    if body.is_empty or rim.is_empty:
        return NOWHERE
    return PlanRoom((body, rim), _with_flange(bay, _sides(body), _sides(rim)))


def _keepout(bay: Bay, keepout: Keepout, levels: BoxLevels) -> PlanRoom:
    """What stays in the bay; the way in apart, but for surfaces."""
    solid = keepout.solid
    if isinstance(solid, Surface):
        body, rim = (kept_clear(bay, solid, band, keepout.distance) for band in (levels.body, levels.rim))
        outside = tuple(EVERYWHERE.difference(blocked) for blocked in (body, rim))
        return PlanRoom(outside, _with_flange(bay, _sides(body), _sides(rim)))
    shadows = (shadow(solid, band, keepout.distance) for band in (levels.body, levels.rim))
    body_pieces, rim_pieces = ([piece] if piece is not None else [] for piece in shadows)
    return PlanRoom((), _with_flange(bay, body_pieces, rim_pieces))


def _sides(region: shapely.Geometry) -> list[Polygon]:
    """The sides of a region's edge, as flat pieces."""
    rings = [ring.coords for ring in shapely.get_parts(shapely.boundary(region))]
    return [side for ring in rings for side in pairwise((float(x), float(y)) for x, y in ring)]


def _gate(bay: Bay, opening: Opening, levels: BoxLevels) -> PlanRoom:
    """What the opening's outline asks of the box's plan; nothing where there is no outline."""
    if opening.outline is None:
        return PlanRoom((), ())
    reach, beside = bay.box.reach, bay.box.bars_beside
    if opening.way in ("up", "down"):
        rims = tuple(widened(grown(edge, bay.tolerance), reach) for edge in edges_of(opening.outline))
        return PlanRoom((shapely.Polygon(opening.outline),), rims)
    edges = edges_of(opening.outline)
    body = gate_pieces(opening, edges, levels.body, bay.tolerance)
    rim = gate_pieces(opening, edges, levels.rim, bay.tolerance)
    own = tuple(widened(piece, beside) for piece in body.pieces)
    return PlanRoom(body.inside + rim.inside, own + tuple(widened(piece, reach) for piece in rim.pieces))
