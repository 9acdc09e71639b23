"""What is missing or odd in a car's files: not wrong, but worth a second look.

Every finding starts with its place, as it is found in the files.
"""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from boxfit.bay import Bay, Keepout, Vector
from boxfit.box.shop_rules import shop_faults, unsuited
from boxfit.car import Car
from boxfit.report.odd_weights import odd_weights
from boxfit.report.paper import signs_not_drawn
from boxfit.report.projection import VIEWS, WAYS, bay_outlines, extents, keepout_outlines, opening_outline
from boxfit.surface import Outline

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

USUAL_CLEARANCE = 10.0
"""Box to fixed body [mm] (common practice, no source)."""
USUAL_BY_REASON = {"moving": 25.0, "hot": 50.0}
"""Box to what moves and to what gets hot [mm] (common practice, no source)."""
GROUND_CLEARANCE = 120.0
"""Least height [mm] under a car (common practice, no source)."""
OVERHANG = 1000.0
"""A small car seldom reaches further [mm] past an axle (common practice, no source)."""
HEIGHT = 2000.0
"""Nor are masses fitted or carried higher [mm] (common practice, no source)."""


def odd_things(car: Car) -> tuple[str, ...]:
    """Everything missing or odd: the car's own first, then bay by bay."""
    of_bays = (line for bay in car.bays for line in _bay(car, bay))
    return (*_missing(car), *odd_weights(car), *_misplaced(car), *_not_drawn(car), *of_bays)


def _missing(car: Car) -> Iterator[str]:
    if car.weighed is None:
        yield "car.toml: [weighed]: missing; axle loads, front share and balance point stay unknown"
    elif car.weighed.height_of_mass is None:
        yield "car.toml: weighed.height_of_mass: missing; the height of the balance point stays unknown"
    if car.target is None:
        yield "car.toml: [target]: missing; the front share is not asked for"
    for name, limit in (
        ("front_axle", car.limits.front_axle),
        ("rear_axle", car.limits.rear_axle),
        ("gross", car.limits.gross),
    ):
        if limit is None:
            yield f"car.toml: limits.{name}: missing; no limit is kept"
    if not car.windows:
        yield "car.toml: [electrics]: missing; any number of modules in one string is allowed"
    if not any(carried.name.strip().casefold() == "driver" for carried in car.carried):
        yield 'car.toml: [[carried]]: no "driver"; limits are judged without one'


def _not_drawn(car: Car) -> Iterator[str]:
    """Names with signs that no drawing can show."""
    named = [("car.toml: name", car.name), *((f"car.toml: {one.name}", one.name) for one in car.carried)]
    for bay in car.bays:
        own = (bay.name, *(one.name for one in bay.keepouts), *(one.name for one in bay.mounts))
        named += [(f"{bay.name}: name", name) for name in own]
    for place, name in named:
        if missing := signs_not_drawn(name):
            yield f"{place}: drawings have no sign for {' '.join(missing)}; frames stand in their place"


def _misplaced(car: Car) -> Iterator[str]:
    """Masses that lie where no car is."""
    half = max(car.track_front, car.track_rear) / 2 + 200.0
    for table, masses in (("fitted", car.fitted), ("carried", car.carried)):
        for mass in masses:
            x, y, z = mass.at
            along = -car.wheelbase - OVERHANG <= x <= OVERHANG
            if not (along and abs(y) <= half and 0.0 <= z <= HEIGHT):
                yield f'car.toml: {table} "{mass.name}": at {_point(mass.at)} lies far outside the car'


def _bay(car: Car, bay: Bay) -> Iterator[str]:
    low, high = extents(bay)
    if bay.tolerance == 0.0:
        yield f"{bay.name}: survey.tolerance: 0; no survey is that good"
    if bay.room.floor < GROUND_CLEARANCE:
        words = f"{bay.room.floor:g} mm above ground; cars keep {GROUND_CLEARANCE:g} clear"
        yield f"{bay.name}: survey.floor: {words}"
    if low[0] > OVERHANG or high[0] < -car.wheelbase - OVERHANG:
        yield f"{bay.name}: survey: lies far outside the car; is x counted from the front axle?"
    if bay.opening is None:
        yield f"{bay.name}: [opening]: missing; whether a box can be brought in is not asked"
    elif not _opening_meets(bay):
        yield f"{bay.name}: opening.outline: does not overlap the bay; no box can come in"
    yield from _box(bay)
    yield from _near_moving_or_hot(bay)
    for keepout in bay.keepouts:
        if not keepout_meets(bay, keepout):
            yield f'{bay.name}: keepout "{keepout.name}": lies wholly outside the bay'


def _box(bay: Bay) -> Iterator[str]:
    rules = bay.box
    if not rules.asked:
        yield f"{bay.name}: [box]: missing; modules are placed without a box and nothing can be built"
        return
    if rules.clearance < USUAL_CLEARANCE:
        words = f"{rules.clearance:g} mm is less than the usual {USUAL_CLEARANCE:g} (common practice)"
        yield f"{bay.name}: box.clearance: {words}"
    yield from _in_the_corner(bay)
    for words in (*unsuited(rules), *(f"{fault.text}; build refuses it" for fault in shop_faults(rules))):
        yield f"{bay.name}: {words}"


def _in_the_corner(bay: Bay) -> Iterator[str]:
    """A gap that what fills the corner between floor and walls is wider than."""
    rules = bay.box
    bead = rules.fold_shop.weld_bead if rules.process != "printed" else 0.0
    fills, key = max(
        (rules.bend_radius if rules.process == "folded" else 0.0, "bend_radius"),
        (bead if rules.thickness > 0.0 else 0.0, "weld bead"),
    )
    need = fills - rules.liner
    if rules.gap < need:
        words = f"{rules.gap:g} mm is less than {key} - liner; the lowest tier keeps {need:g}"
        yield f"{bay.name}: box.gap: {words}"


def _near_moving_or_hot(bay: Bay) -> Iterator[str]:
    """Keep-outs that move or get hot and are given less room than is usual."""
    for keepout in bay.keepouts:
        usual, clearance = USUAL_BY_REASON.get(keepout.reason, 0.0), keepout.distance - bay.tolerance
        if clearance < usual - 1e-9:
            words = f"{clearance:.10g} mm is less than the usual {usual:g} to what is {keepout.reason}"
            yield f'{bay.name}: keepout "{keepout.name}": clearance: {words} (common practice)'


def _opening_meets(bay: Bay) -> bool:
    """True where the hole, seen from its own side, shares some area with the bay."""
    from shapely import Polygon

    opening = bay.opening
    if opening is None or opening.outline is None:
        return True
    view = next(view for view in VIEWS if view.nearer[0] == WAYS[opening.way][0])
    hole = Polygon(opening_outline(view, bay, opening))
    return bool(hole.intersection(_joined(bay_outlines(view, bay))).area > 0)


def keepout_meets(bay: Bay, keepout: Keepout) -> bool:
    """False only where the keep-out's outline misses the bay's in one of the three views."""
    return all(
        _joined(keepout_outlines(view, keepout)).intersection(_joined(bay_outlines(view, bay))).area > 0
        for view in VIEWS
    )


def _joined(outlines: Iterable[Outline]) -> "BaseGeometry":
    from shapely import Polygon, unary_union

    return unary_union([Polygon(outline) for outline in outlines])


def _point(at: Vector) -> str:
    return f"({at[0]:g}, {at[1]:g}, {at[2]:g})"
