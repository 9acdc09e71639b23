"""The things that may hold a layout back, and the car as it would be with one of them eased.

Every figure is eased from what the car's files say; what they do not say is not listed. How far a thing is
eased at most is common practice, no source: further is another car.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from typing import Literal

from boxfit.bay import Bay
from boxfit.car import Car, Limits, Target
from boxfit.search.easing_faces import faces, widened_opening
from boxfit.search.easing_rules import RULES, Rule, nearer, rules_of

Unit = Literal["mm", "kg", "V", "share", "tiers", "boxes", "away"]
"""What an easing is told in; a share is the front share [-], and what is taken "away" goes wholly."""
STEPS: dict[Unit, float] = {
    "mm": 0.5, "kg": 0.1, "V": 0.1, "share": 0.001, "tiers": 1.0, "boxes": 1.0, "away": 1.0
}  # fmt: skip
"""Easings are told no finer than this."""
MOST_MOVED = 300.0
"""Faces of a bay and the sides of its opening are moved no further [mm]."""
MOST_KILOGRAMS = 300.0
"""Limits of the plate are raised no further [kg]."""
MOST_VOLTS = 200.0
"""The ends of a voltage window are moved no further [V]."""
TOLERANCE = "target, tolerance"
OPENING = "opening"
"""An opening taken away: boxes are made up inside the bay, none has to go in."""
EVERY_BAY = "every bay"
"""Where a rule is eased in all bays at once."""
MOST_SHARE = 0.1
"""The target front share and its tolerance are moved no further [-]."""


@dataclass(frozen=True)
class Easing:
    """One thing eased by up to `most` [unit]; `change` makes the car with it eased by so much.

    `bay` is empty where the thing is the car's. `now` is the figure in the files, which easing `lessens` or
    else raises; None where only the move is told. `negotiable` marks a keep-out that could go, and `wanders`
    what may gain at some easing and lose it again further on. `part_of` names what of the same bay eases this
    as well: what gains nothing there gains nothing here. `tolerance` is that of the target [-] where it is
    eased beside the thing.
    """

    bay: str
    what: str
    unit: Unit
    most: float
    change: Callable[[Car, float], Car]
    now: float | None = None
    lessens: bool = False
    negotiable: bool = False
    wanders: bool = False
    part_of: str = ""
    tolerance: float | None = None

    @property
    def step(self) -> float:
        """No easing is told finer [unit]."""
        return STEPS[self.unit]

    def becomes(self, by: float) -> float | None:
        """The figure once eased by so much [unit]; None where there is none."""
        return None if self.now is None else round(self.now + (-by if self.lessens else by), 6)


def easings(car: Car) -> tuple[Easing, ...]:
    """Every thing of the car that could be eased, in a fixed order: what is looked at quickly comes first."""
    places = range(len(car.bays))
    return (
        *_of_target(car),
        *_of_limits(car),
        *_of_windows(car),
        *(easing for place in places for easing in _of_keepouts(car.bays[place], place)),
        *(easing for place in places for easing in _of_opening(car.bays[place], place)),
        *(easing for place in places for easing in _of_faces(car.bays[place], place)),
        *(easing for place in places for easing in _of_rules(car.bays[place], place)),
        *_of_every_bay(car),
    )


def with_tolerance(easing: Easing, tolerance: float) -> Easing:
    """The thing eased in a car whose target has this tolerance [-]."""
    change = partial(_beside_tolerance, easing.change, tolerance)
    return replace(easing, change=change, tolerance=tolerance)


def _beside_tolerance(change: Callable[[Car, float], Car], tolerance: float, car: Car, by: float) -> Car:
    target: Target | None = car.target
    return change(replace(car, target=target and replace(target, tolerance=tolerance)), by)


def _of_keepouts(bay: Bay, place: int) -> list[Easing]:
    found = []
    for number, keepout in enumerate(bay.keepouts):
        away = partial(_in_bay, place, partial(_without_keepout, number))
        found.append(Easing(bay.name, keepout.name, "away", 1.0, away, negotiable=keepout.negotiable))
        kept, what = round(keepout.distance - bay.tolerance, 6), f"{keepout.name}, clearance"
        near = partial(_in_bay, place, partial(_nearer_keepout, number))
        if kept > 0.0:
            found.append(Easing(bay.name, what, "mm", kept, near, kept, True, part_of=keepout.name))
    return found


def _of_opening(bay: Bay, place: int) -> list[Easing]:
    if bay.opening is None:
        return []
    found = [Easing(bay.name, OPENING, "away", 1.0, partial(_in_bay, place, _without_opening))]
    if bay.opening.outline is not None:
        what, wider = f"{OPENING}, every side of its outline", partial(_in_bay, place, widened_opening)
        found.append(Easing(bay.name, what, "mm", MOST_MOVED, wider, part_of=OPENING))
    return found


def _of_faces(bay: Bay, place: int) -> list[Easing]:
    return [
        Easing(bay.name, face.name, "mm", MOST_MOVED, partial(_in_bay, place, face.change))
        for face in faces(bay)
    ]


def _of_rules(bay: Bay, place: int) -> list[Easing]:
    return [
        replace(_of_rule(rule, bay), change=partial(_in_bay, place, rule.change)) for rule in rules_of(bay)
    ]


def _of_rule(rule: Rule, bay: Bay) -> Easing:
    """The easing of a figure of this bay; the change is still to be told the bay."""
    unit: Unit = rule.unit
    return Easing(bay.name, rule.name, unit, rule.room(bay), _unchanged, rule.figure(bay), rule.lessens)


def _of_every_bay(car: Car) -> list[Easing]:
    """The same figures eased in all bays at once, where several have them."""
    found = []
    for rule in RULES:
        bays = [bay for bay in car.bays if rule in rules_of(bay)]
        if len(bays) > 1:
            figures = {rule.figure(bay) for bay in bays}
            widest = replace(_of_rule(rule, max(bays, key=rule.room)), bay=EVERY_BAY)
            now = widest.now if len(figures) == 1 else None
            found.append(replace(widest, now=now, change=partial(_in_every_bay, rule.change)))
    return found


def _of_target(car: Car) -> list[Easing]:
    target = car.target
    if target is None or car.weighed is None:
        return []
    share = target.front_share
    return [
        Easing("", TOLERANCE, "share", MOST_SHARE, _with_target_tolerance, target.tolerance),
        Easing("", "target, moved to the front", "share", round(min(MOST_SHARE, 1.0 - share), 3),
               _with_target_forward, share, wanders=True),
        Easing("", "target, moved to the rear", "share", round(min(MOST_SHARE, share), 3),
               _with_target_back, share, lessens=True, wanders=True),
    ]  # fmt: skip


def _of_limits(car: Car) -> list[Easing]:
    plate = (("front axle", "front_axle"), ("rear axle", "rear_axle"), ("gross", "gross"))
    own = [
        Easing("", f"{name} limit", "kg", MOST_KILOGRAMS, partial(_with_limit, key), getattr(car.limits, key))
        for name, key in plate
        if car.weighed is not None and getattr(car.limits, key) is not None
    ]
    return own + _of_every_limit(car)


def _of_every_limit(car: Car) -> list[Easing]:
    """All limits of the plate at once, where there are several."""
    keys = [key for key in ("front_axle", "rear_axle", "gross") if getattr(car.limits, key) is not None]
    if car.weighed is None or len(keys) < 2:
        return []
    return [Easing("", "every limit of the plate", "kg", MOST_KILOGRAMS, partial(_with_limits, tuple(keys)))]


def _of_windows(car: Car) -> list[Easing]:
    found = []
    for window in car.windows:
        low, high = f"{window.name} window, low end", f"{window.name} window, high end"
        found.append(
            Easing(
                "", low, "V", min(MOST_VOLTS, window.low), partial(_low_end, (window.name,)), window.low, True
            )
        )
        found.append(Easing("", high, "V", MOST_VOLTS, partial(_high_end, (window.name,)), window.high))
    if len(car.windows) > 1:
        every = tuple(window.name for window in car.windows)
        deepest = min(MOST_VOLTS, max(window.low for window in car.windows))
        found.append(Easing("", "every window, low end", "V", deepest, partial(_low_end, every)))
        found.append(Easing("", "every window, high end", "V", MOST_VOLTS, partial(_high_end, every)))
    return found


def _unchanged(car: Car, _by: float) -> Car:
    return car


def _in_bay(place: int, change: Callable[[Bay, float], Bay], car: Car, by: float) -> Car:
    bays = [change(bay, by) if number == place else bay for number, bay in enumerate(car.bays)]
    return replace(car, bays=tuple(bays))


def _in_every_bay(change: Callable[[Bay, float], Bay], car: Car, by: float) -> Car:
    return replace(car, bays=tuple(change(bay, by) for bay in car.bays))


def _nearer_keepout(number: int, bay: Bay, by: float) -> Bay:
    keepouts = [nearer(one, by) if k == number else one for k, one in enumerate(bay.keepouts)]
    return replace(bay, keepouts=tuple(keepouts))


def _without_keepout(number: int, bay: Bay, _by: float) -> Bay:
    return replace(bay, keepouts=bay.keepouts[:number] + bay.keepouts[number + 1 :])


def _without_opening(bay: Bay, _by: float) -> Bay:
    return replace(bay, opening=None)


def _with_target_tolerance(car: Car, by: float) -> Car:
    target: Target | None = car.target
    return replace(car, target=target and replace(target, tolerance=round(target.tolerance + by, 6)))


def _with_target_forward(car: Car, by: float) -> Car:
    target: Target | None = car.target
    return replace(car, target=target and replace(target, front_share=round(target.front_share + by, 6)))


def _with_target_back(car: Car, by: float) -> Car:
    return _with_target_forward(car, -by)


def _with_limit(key: str, car: Car, by: float) -> Car:
    limits: Limits = replace(car.limits, **{key: round(getattr(car.limits, key) + by, 6)})
    return replace(car, limits=limits)


def _with_limits(keys: tuple[str, ...], car: Car, by: float) -> Car:
    for key in keys:
        car = _with_limit(key, car, by)
    return car


def _low_end(names: tuple[str, ...], car: Car, by: float) -> Car:
    windows = (
        replace(window, low=round(max(window.low - by, 0.0), 6)) if window.name in names else window
        for window in car.windows
    )
    return replace(car, windows=tuple(windows))


def _high_end(names: tuple[str, ...], car: Car, by: float) -> Car:
    windows = (
        replace(window, high=round(window.high + by, 6)) if window.name in names else window
        for window in car.windows
    )
    return replace(car, windows=tuple(windows))
