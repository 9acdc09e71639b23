"""The dress cover plate over the lid: whether it finds room, and with returned edges or without."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import lru_cache
from math import dist

import shapely

from boxfit.bay import Bay, Keepout, Point
from boxfit.box.parts import CoverPlate, NutKind, Plate, Stud
from boxfit.box.stepped import millimetres, moves
from boxfit.box_details import STUD_DIAMETER, STUD_HEIGHT, reflex_corners, stud_points, takes_screws
from boxfit.box_shape import Rectangle, grown, rectangles
from boxfit.layout import PlacedBox
from boxfit.lid_details import (
    DOME_NUT,
    LOW_NUT,
    NUT_ACROSS,
    STUD_HOLE,
    STUD_THREAD,
    cover_height,
    cover_material,
    cover_past_flange,
    cover_plate_lacking,
    cover_radius,
    return_height,
    room_beside,
)
from boxfit.space.free import BoxLevels, plan_room
from boxfit.space.shadow import Levels
from boxfit.surface import Outline

CLOSE = 1e-4
"""A place this near [mm] to a free one is free."""
HALVINGS = 12
"""How often the room that is missing is halved: to a thousandth of a millimetre or so."""
CUT = 1.0
"""A cut and what is left beside it are at least this wide [mm] (our own)."""


@dataclass(frozen=True)
class Cover:
    """The cover plate with its studs, or None and what height [mm] is missing; what a maker should know."""

    plate: CoverPlate | None
    stud: Stud | None
    studs: tuple[Point, ...]
    lacking: float
    notes: tuple[str, ...]


@lru_cache(maxsize=256)
def cover_of(name: str, bay: Bay, box: PlacedBox) -> Cover:
    """The cover plate of a box called `name` where it stands in its bay, and what it lacks."""
    rules, top = bay.box, box.high[2]
    lacking = cover_plate_lacking(top, bay) or _lacking_above(bay, box)
    if lacking:
        told = f"{name}: cover plate left out: {millimetres(lacking)} too little above the lid"
        return Cover(None, None, (), lacking, (told,))
    bottom = top + STUD_HEIGHT
    up = (bottom, bottom + rules.lid_thickness)
    studs = _studs(box)
    refused = _returns_refused(bay, box)
    nut: NutKind = "dome nut" if _dome_nuts_fit(bay, studs, up[1]) else "low nut"
    shows = "lid screws show" if takes_screws(rules) else "the lid's edge shows"
    notes = [f"{name}: cover plate without returned edges, {shows}: {refused}"] if refused else []
    if nut == "low nut":
        notes.append(
            f"{name}: cover plate held by low nuts: dome nuts want {DOME_NUT:g} mm above it and the survey's"
            " tolerance above that"
        )
    past = 0.0 if refused else cover_past_flange(rules)
    plate = CoverPlate(
        name=f"{name} cover plate",
        material=cover_material(rules),
        plate=Plate(grown(box.outlines[-1], rules.flange + past), *up),
        height=rules.lid_thickness if refused else return_height(rules),
        bend_radius=cover_radius(rules),
        holes=studs,
        hole_diameter=STUD_HOLE,
        nut=nut,
    )
    stud = Stud(STUD_DIAMETER, STUD_HEIGHT, STUD_THREAD, rules.lid_thickness + LOW_NUT)
    return Cover(plate, stud, studs, 0.0, tuple(notes))


def _studs(box: PlacedBox) -> tuple[Point, ...]:
    """Where the studs stand in the car [mm]; counted from the box's corner, so that places never matter."""
    low = box.low
    outline = tuple((x - low[0], y - low[1]) for x, y in box.outlines[-1])
    return tuple((low[0] + x, low[1] + y) for x, y in stud_points(outline))


def least_return_side(outline: Outline, bay: Bay) -> float | None:
    """By how much [mm] the sides of a cover plate of this outside are too short for returned edges, if any.

    At a convex corner a relief takes one and a half bends of a side, at one that turns inwards the returned
    edges of both sides want the same sheet and are cut to a mitre.
    """
    rules = bay.box
    outer = (cover_radius(rules) or 0.0) + rules.lid_thickness
    convex, inwards = 1.5 * outer + CUT, return_height(rules) + 2.0 * CUT
    reflex = reflex_corners(outline)
    pairs = zip(outline, outline[1:] + outline[:1], strict=True)
    needs = (
        CUT + sum(inwards if corner in reflex else convex for corner in pair) - dist(*pair) for pair in pairs
    )
    most = max(needs)
    return most if most > 0.0 else None


def _returns_refused(bay: Bay, box: PlacedBox) -> str | None:
    """Why the plate has no returned edges, and what would help; None where it can."""
    rules, past = bay.box, cover_past_flange(bay.box)
    reach = rules.flange + past
    if not moves(box.outlines[-1], reach + CUT):
        return f"facing flanges stand less than {millimetres(2.0 * (past + CUT))} apart"
    short = least_return_side(grown(box.outlines[-1], reach), bay)
    if short:
        return f"a side of the lid is {millimetres(short)} too short for one"
    beside = past - room_beside(rules)
    if beside > 1e-6:
        share = 2.0 if rules.boxes > 1 else 1.0
        return (
            f"{millimetres(beside)} too little room beside the flange; box.clearance = {share * past:g} "
            "or more would do"
        )
    return _meets(bay, box, reach)


def _meets(bay: Bay, box: PlacedBox, reach: float) -> str | None:
    """How much the returned edges lack where the box stands, and what would help."""
    rules = bay.box
    top = box.high[2] + STUD_HEIGHT + rules.lid_thickness
    levels = (top - return_height(rules), top)
    if _is_free(bay, levels, grown(box.outlines[-1], reach)):
        return None
    lacking = _least_lacking(
        lambda less: _is_free(bay, levels, grown(box.outlines[-1], reach - less)), reach - rules.flange
    )
    sealed = replace(bay, opening=None)
    if bay.opening is not None and _is_free(sealed, levels, grown(box.outlines[-1], reach)):
        return (
            f"straight in they pass the bay's opening {millimetres(lacking)} too near; box.flange = "
            f"{max(rules.flange - lacking, 0.0):.3g} or less may do where lid screws and gasket allow"
        )
    return (
        f"{millimetres(lacking)} too little room where the box stands; box.clearance = "
        f"{rules.clearance + lacking:.3g} or more would make it"
    )


def _lacking_above(bay: Bay, box: PlacedBox) -> float:
    """How much height [mm] the flat plate lacks where the box stands; 0 where there is enough."""
    rules, outline = bay.box, grown(box.outlines[-1], bay.box.flange)
    bottom = box.high[2] + STUD_HEIGHT

    def fits(less: float) -> bool:
        return _is_free(bay, (bottom - less, bottom + rules.lid_thickness + LOW_NUT - less), outline)

    if rules.clearance >= cover_height(rules) or fits(0.0):
        return 0.0
    return _least_lacking(fits, cover_height(rules))


def _least_lacking(fits: Callable[[float], bool], most: float) -> float:
    """The least length [mm] to take away for something to fit, by halving; `most` where none is enough."""
    low, high = 0.0, most
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        low, high = (low, middle) if fits(middle) else (middle, high)
    return high


def _dome_nuts_fit(bay: Bay, studs: tuple[Point, ...], level: float) -> bool:
    """Whether a dome nut finds room over every stud, from the plate's top [mm] up."""
    half = NUT_ACROSS / 2.0
    nuts = tuple(((x - half, y - half), (x + half, y + half)) for x, y in studs)
    return _all_free(bay, (level, level + DOME_NUT), nuts)


def _is_free(bay: Bay, levels: Levels, outline: Outline) -> bool:
    """Whether what has this outline between two levels keeps what it must keep, and gets in."""
    return _all_free(bay, levels, rectangles(outline))


def _all_free(bay: Bay, levels: Levels, taken: tuple[Rectangle, ...]) -> bool:
    """Whether all these rectangles are free between two levels, and get in.

    They keep the survey's tolerance from all, and the whole distance from what is kept off for a reason; of
    what else a keep-out asks they may use the box's own clearance.
    """
    room = plan_room(_for_covers(bay), BoxLevels(levels[0], levels[0], levels[1]))
    places: dict[Point, shapely.Geometry] = {}
    for low, high in taken:
        size = (round(high[0] - low[0], 6), round(high[1] - low[1], 6))
        if size not in places:
            places[size] = room.places(*size)
        free = places[size]
        if free.is_empty or free.distance(shapely.Point(low)) > CLOSE:
            return False
    return True


@lru_cache(maxsize=32)
def _for_covers(bay: Bay) -> Bay:
    """The bay with what a cover plate keeps from everything, as if it were a box without a flange."""

    def kept(keepout: Keepout) -> float:
        if keepout.reason:
            return keepout.distance
        return max(bay.tolerance, keepout.distance - bay.box.clearance)

    keepouts = tuple(replace(keepout, distance=kept(keepout)) for keepout in bay.keepouts)
    bare = replace(bay.box, flange=0.0, stiffening_depth=0.0, stiffening_floor_depth=0.0)
    return replace(bay, distance=bay.tolerance, keepouts=keepouts, box=bare, mounts=())
