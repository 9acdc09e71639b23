"""The figures of a bay's rules that may be eased: allowances lessened, tiers and boxes added."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from typing import Literal

from boxfit.bay import Bay, BoxRules, Keepout

MOST_MORE = 2
"""Tiers and boxes more than the files allow."""
THINNEST, NARROWEST_FLANGE = 1.0, 15.0
"""Sheet [mm] that is still welded by hand, a flange [mm] with room for seal and screws; both from memory."""


def nearer(keepout: Keepout, by: float) -> Keepout:
    """A keep-out that may be come nearer to by so much [mm]."""
    return replace(keepout, distance=round(keepout.distance - by, 6))


@dataclass(frozen=True)
class Rule:
    """A figure of a bay's rules that may be eased, and how."""

    name: str
    unit: Literal["mm", "tiers", "boxes"]
    figure: Callable[[Bay], float]
    least: float
    change: Callable[[Bay, float], Bay]

    def room(self, bay: Bay) -> float:
        """How far [unit] the figure can be eased in this bay."""
        return float(MOST_MORE) if self.unit != "mm" else round(self.figure(bay) - self.least, 6)

    @property
    def lessens(self) -> bool:
        """True where easing makes the figure less."""
        return self.unit == "mm"


def _box_figure(name: str, bay: Bay) -> float:
    return float(getattr(bay.box, name))


def _tolerance(bay: Bay) -> float:
    return bay.tolerance


def _with_box_figure(name: str, least: float, bay: Bay, by: float) -> Bay:
    """A figure of the box rules lessened [mm], no further than to `least`."""
    now = _box_figure(name, bay)
    rules: BoxRules = replace(bay.box, **{name: round(max(now - by, min(now, least)), 6)})  # type: ignore[arg-type]
    return replace(bay, box=rules)


def _with_more(name: str, bay: Bay, by: float) -> Bay:
    """More tiers or boxes."""
    rules: BoxRules = replace(bay.box, **{name: int(_box_figure(name, bay) + by)})  # type: ignore[arg-type]
    return replace(bay, box=rules)


def _with_clearance(bay: Bay, by: float) -> Bay:
    """Less clearance [mm], also from what stays, where that keeps no more than the box's own."""
    less = min(by, bay.box.clearance)
    keepouts = tuple(
        keepout if keepout.distance > bay.distance else nearer(keepout, less) for keepout in bay.keepouts
    )
    rules = replace(bay.box, clearance=round(bay.box.clearance - less, 6))
    return replace(bay, distance=round(bay.distance - less, 6), box=rules, keepouts=keepouts)


def _with_tolerance(bay: Bay, by: float) -> Bay:
    """A survey that may be less far out [mm]."""
    less = min(by, bay.tolerance)
    keepouts = tuple(nearer(keepout, less) for keepout in bay.keepouts)
    tolerance, distance = round(bay.tolerance - less, 6), round(bay.distance - less, 6)
    return replace(bay, tolerance=tolerance, distance=distance, keepouts=keepouts)


def _lessened(name: str, least: float = 0.0) -> Rule:
    return Rule(name, "mm", partial(_box_figure, name), least, partial(_with_box_figure, name, least))


RULES = (
    Rule("clearance", "mm", partial(_box_figure, "clearance"), 0.0, _with_clearance),
    Rule("survey tolerance", "mm", _tolerance, 0.0, _with_tolerance),
    _lessened("liner"),
    _lessened("headroom"),
    _lessened("gap"),
    _lessened("thickness", THINNEST),
    _lessened("flange", NARROWEST_FLANGE),
    Rule("tiers", "tiers", partial(_box_figure, "tiers"), 0.0, partial(_with_more, "tiers")),
    Rule("boxes", "boxes", partial(_box_figure, "boxes"), 0.0, partial(_with_more, "boxes")),
)


def rules_of(bay: Bay) -> list[Rule]:
    """The figures that can be eased in this bay; without a [box] table only the survey's tolerance."""
    own = [rule for rule in RULES if rule.room(bay) > 0.0]
    return own if bay.box.asked else [rule for rule in own if rule.figure is _tolerance]
