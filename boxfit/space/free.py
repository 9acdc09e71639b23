"""From a bay to the free plan for a box between given levels, insertion included."""

from dataclasses import dataclass

from boxfit.bay import Bay, Opening, Point
from boxfit.space.opening import gate_pieces, way_in_pieces
from boxfit.space.plan import SLACK, PlanRoom
from boxfit.space.shadow import Levels, Polygon, grown, shadow


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

    Levels outside the bay's floor and top, less `bay.distance`, leave no room at all.
    """
    room = bay.room
    if levels.bottom < room.floor + bay.distance - 1e-6 or levels.top > room.top - bay.distance + 1e-6:
        return PlanRoom((), ())
    flange = bay.box.flange
    inside = [room.outline]
    pieces = [widened(grown(edge, bay.distance), flange) for edge in edges_of(room.outline)]
    for keepout in bay.keepouts:
        body = shadow(keepout.solid, levels.body, keepout.distance)
        rim = shadow(keepout.solid, levels.rim, keepout.distance)
        pieces += [piece for piece in (body,) if piece is not None]
        pieces += [widened(piece, flange) for piece in (rim,) if piece is not None]
    if bay.opening is not None:
        body_path, rim_path = way_in_pieces(bay, bay.opening, (levels.body, levels.rim))
        pieces += body_path + [widened(piece, flange) for piece in rim_path]
        gate = _gate(bay, bay.opening, levels)
        inside += gate.inside
        pieces += gate.pieces
    return PlanRoom(tuple(inside), tuple(dict.fromkeys(pieces)))


def _gate(bay: Bay, opening: Opening, levels: BoxLevels) -> PlanRoom:
    """What the opening's outline asks of the box's plan; nothing where there is no outline."""
    if opening.outline is None:
        return PlanRoom((), ())
    flange = bay.box.flange
    if opening.way in ("up", "down"):
        rims = tuple(widened(grown(edge, bay.tolerance), flange) for edge in edges_of(opening.outline))
        return PlanRoom((opening.outline,), rims)
    edges = edges_of(opening.outline)
    body = gate_pieces(opening, edges, levels.body, bay.tolerance)
    rim = gate_pieces(opening, edges, levels.rim, bay.tolerance)
    return PlanRoom(
        body.inside + rim.inside, body.pieces + tuple(widened(piece, flange) for piece in rim.pieces)
    )
