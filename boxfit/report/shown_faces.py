"""Which faces of a stepped box tell their margin in a view, so that every one does in some view."""

from functools import lru_cache

from boxfit.bay import BoxRules
from boxfit.layout import PlacedBox
from boxfit.report.bands import Band, bands
from boxfit.report.drawn_box import drawn_box
from boxfit.report.faces import WAYS, BoxFace, stepped_faces
from boxfit.report.projection import PLAN, SIDE, VIEWS, View
from boxfit.space.distance import outwards

LEAST = 1.0
"""So much of a face [mm] lies on the box's outline where it is told there."""


@lru_cache(maxsize=64)
def shown_faces(view: View, box: PlacedBox, rules: BoxRules) -> dict[str, object]:
    """The names of the faces a view tells, each with its place: of several in one place the tightest is told.

    In plan these are the walls round the topmost tier; in the other views the faces on the box's outline,
    those at one level in one place. Of the others, walls are told in plan, steps of the floor at the side.
    """
    pieces = bands(box, rules)
    faces = stepped_faces(pieces)
    others = [
        face for face in faces if not any(_on_outline(one, pieces, face) for one in VIEWS if one is not PLAN)
    ]
    if view is PLAN:
        walls = [face for face in faces if face.way in WAYS]
        own = [face for face in walls if face.blocks[0].high[2] == pieces[-1].top or face in others]
        return {face.name: face.name for face in own}
    rest = [face for face in others if face.way not in WAYS] if view is SIDE else []
    own = [face for face in faces if _on_outline(view, pieces, face)]
    return {face.name: _place(face) for face in (*own, *rest)}


def _place(face: BoxFace) -> object:
    axis = outwards(face.way)[0]
    return face.way, round(face.blocks[0].low[axis], 3)


def _on_outline(view: View, pieces: tuple[Band, ...], face: BoxFace) -> bool:
    """True where a face, seen from its edge, makes up some of the box's outline."""
    from shapely import LineString, Polygon

    if outwards(face.way)[0] == view.nearer[0]:
        return False
    rim = Polygon(drawn_box(view, pieces).outline).exterior
    lines = (LineString((view.flat(block.low), view.flat(block.high))) for block in face.blocks)
    return any(line.intersection(rim).length > LEAST for line in lines)
