"""Rules that hold between a box, the shops that make it, and the mounts of its bay. [mm]

Only what nobody could work with is refused here. What a shop would send back is told by `check` and refused
by `build` (box/shop_rules.py), so that a layout may still be tried with it.
"""

from collections.abc import Iterator, Sequence
from math import dist

from pydantic import ValidationError

from boxfit.bay import BoxRules, Room, Vector
from boxfit.box_details import least_flange
from boxfit.files.bay import box_rules
from boxfit.files.problems import Problem
from boxfit.files.said_bay import SaidBay
from boxfit.files.said_box import SaidBox
from boxfit.files.shown import shown
from boxfit.lid_details import gasket_too_wide
from boxfit.workshop import LEAST_BED

Raw = dict[str, object]
MOUNT_REACH = 500.0
"""No box's foot reaches further [mm] out of its bay than this (common practice, no source)."""
_GASKET = ("gasket_width", "gasket_thickness")


def across_shops(car: Raw, car_file: str, bays: Sequence[tuple[str, Raw]]) -> Iterator[Problem]:
    """What does not agree in [box] of car and bay files, between its own keys, and of the printer's bed."""
    told: set[Problem] = set()
    for file, bay in bays:
        for problem in (*_gasket(car, car_file, bay, file), *_stiffened(car, car_file, bay, file)):
            if problem not in told:
                told.add(problem)
                yield problem
    yield from _bed(car, car_file)


def mounts_in_reach(said: SaidBay, room: Room, file: str) -> Iterator[Problem]:
    """Mounts that lie absurdly far outside of their bay."""
    for place, mount in enumerate(said.mount, start=1):
        away = _outside(room, mount.at)
        if away > MOUNT_REACH:
            rule = f"must lie within {MOUNT_REACH:g} mm of its bay, it is {away:.0f} mm outside"
            remedy = "measure from ground, centre line and front axle, or move it to the file of its own bay"
            yield Problem(file, f"mount[{place}].at", rule, shown(mount.at), remedy)


def _outside(room: Room, at: list[float]) -> float:
    """How far [mm] a place is outside the extent of a room; 0 within."""
    low, high = _extent(room)
    nearest = tuple(min(max(value, low[axis]), high[axis]) for axis, value in enumerate(at))
    return dist(nearest, at)


def _extent(room: Room) -> tuple[Vector, Vector]:
    xs, ys = zip(*room.outline, strict=True)
    return (min(xs), min(ys), room.floor), (max(xs), max(ys), room.top)


_STIFFENING = ("stiffening_depth", "stiffening_floor_depth")


def _stiffened(car: Raw, car_file: str, bay: Raw, bay_file: str) -> Iterator[Problem]:
    """Stiffening bars asked for a box that is printed: nothing is welded on that."""
    car_box, bay_box = _sound(car.get("box")), _sound(bay.get("box"))
    if (car_box is None and bay_box is None) or box_rules(car_box, bay_box).process != "printed":
        return
    for key in _STIFFENING:
        for box, file in ((bay_box, bay_file), (car_box, car_file)):
            depth = getattr(box, key) if box and key in box.model_fields_set else None
            if depth is not None:
                if depth > 0.0:
                    rule = 'must be 0 where process = "printed": bars are welded on, printed walls are not'
                    remedy = f'{key} = 0, or process = "folded" or "welded"; more thickness stiffens a print'
                    yield Problem(file, f"box.{key}", rule, shown(depth), remedy)
                break


def _bed(car: Raw, file: str) -> Iterator[Problem]:
    """A printer too small for a piece with a keyed joint at each end."""
    shop = car.get("print_shop")
    bed = shop.get("bed") if isinstance(shop, dict) else None
    for place, side in enumerate(bed if isinstance(bed, list) else [], start=1):
        if not isinstance(side, bool) and isinstance(side, int | float) and 0.0 < side < LEAST_BED:
            rule = f"must be at least {LEAST_BED:g}: a piece with a keyed joint at each end takes that"
            remedy = "give the bed of the shop that prints, or leave it out"
            yield Problem(file, f"print_shop.bed[{place}]", rule, shown(side), remedy)


def _gasket(car: Raw, car_file: str, bay: Raw, bay_file: str) -> Iterator[Problem]:
    """A gasket told of by half, or wider than what the flange leaves for it."""
    car_box, bay_box = _sound(car.get("box")), _sound(bay.get("box"))
    if car_box is None and bay_box is None:
        return
    rules = box_rules(car_box, bay_box)

    def where(key: str) -> str:
        return bay_file if bay_box and key in bay_box.model_fields_set else car_file

    said = {key for box in (car_box, bay_box) if box for key in box.model_fields_set}
    for key, other in zip(_GASKET, reversed(_GASKET), strict=True):
        if key in said and other not in said and getattr(rules, key) > 0.0:
            rule = f"is missing: box.{key} {shown(getattr(rules, key))} tells of a gasket"
            remedy = f"write {other} = {4 if other == 'gasket_thickness' else 8} beside it"
            yield Problem(where(key), f"box.{other}", rule, None, remedy)
    leaves = gasket_too_wide(rules)
    if rules.gasket_pressed > 0.0 and rules.gasket_width > leaves + 1e-9:
        yield Problem(where("gasket_width"), "box.gasket_width", *_too_wide(rules, leaves))


def _too_wide(rules: BoxRules, leaves: float) -> tuple[str, str, str]:
    """Rule, figure and remedy for a gasket that the flange has no room for."""
    lacks = rules.gasket_width - leaves
    wider = f"box.flange = {max(rules.flange + lacks, least_flange(rules)):.4g}"
    narrower = f"box.gasket_width = {leaves:.4g}"
    room = f"the {leaves:.4g} mm that" if leaves > 0.0 else "what"
    rule = f"must not be above {room} flange {shown(rules.flange)} leaves beside the lid screws"
    remedy = f"{narrower} or {wider}" if leaves >= 3.0 else wider
    return rule, shown(rules.gasket_width), remedy


def _sound(raw: object) -> SaidBox | None:
    """Those keys of a [box] that are right in themselves; None where there is no table."""
    if not isinstance(raw, dict):
        return None
    kept: dict[str, object] = {}
    for key, value in raw.items():
        try:
            SaidBox.model_validate({key: value})
        except ValidationError:
            continue
        kept[key] = value
    return SaidBox.model_validate(kept)
