"""The car: what it weighs, what it may weigh, and what the pack must suit."""

from dataclasses import dataclass
from typing import Literal

from boxfit.bay import Bay, Vector
from boxfit.module import Current


@dataclass(frozen=True)
class PointMass:
    """Something of known mass [kg] whose centre is at `at` [mm]."""

    name: str
    mass: float
    at: Vector


Axle = Literal["front", "rear"]
USUAL_SCALE = 1.0
"""What one scale may be out [kg], plus or minus (common practice, no source)."""


@dataclass(frozen=True)
class RaisedAxle:
    """Readings with the wheels of one `axle` raised by `height` [mm] above those of the other.

    `load` [kg] is what the scales under the axle left on the ground read; `wheel_radius` [mm] is that of the
    loaded wheels.
    """

    axle: Axle
    height: float
    load: float
    wheel_radius: float


@dataclass(frozen=True)
class CornerWeights:
    """Readings of four scales [kg] under the stripped car, and the height of its mass [mm] if known.

    The height is as written, else by what was read with an axle `raised`. One reading may be out by
    `scale_error` [kg], plus or minus.
    """

    front_left: float
    front_right: float
    rear_left: float
    rear_right: float
    height_of_mass: float | None = None
    raised: RaisedAxle | None = None
    scale_error: float = USUAL_SCALE


@dataclass(frozen=True)
class Target:
    """The front share [-] wanted, give or take `tolerance` [-], judged with `aboard` of the carried."""

    front_share: float
    tolerance: float
    aboard: tuple[str, ...] = ()


@dataclass(frozen=True)
class Limits:
    """The maker's plate [kg]; None where the plate is silent."""

    front_axle: float | None = None
    rear_axle: float | None = None
    gross: float | None = None


@dataclass(frozen=True)
class Window:
    """A voltage window [V] that the string stays inside, from empty to full."""

    name: str
    low: float
    high: float


@dataclass(frozen=True)
class PullFactors:
    """Times its own weight that a box is pulled each way [g], by the user's own word; 0 asks nothing.

    `rules` names the rule set from which those were taken that the file leaves out; empty for the usual one.
    """

    rules: str
    front: float
    rear: float
    side: float
    up: float
    down: float


@dataclass(frozen=True)
class Car:
    """One car as believed after reading: names as written, every figure checked.

    `windows` is empty where the file has no [electrics]; a pack is then one string. With
    `string_in_one_bay` no string may have modules in two bays. `drive` is what the drive draws of the pack.
    `retention` names the rule set that boxes must stay put under, empty for the usual one; or it holds the
    user's own factors.
    """

    name: str
    folder: str
    wheelbase: float
    track_front: float
    track_rear: float
    bays: tuple[Bay, ...]
    weighed: CornerWeights | None = None
    fitted: tuple[PointMass, ...] = ()
    carried: tuple[PointMass, ...] = ()
    target: Target | None = None
    limits: Limits = Limits()
    windows: tuple[Window, ...] = ()
    string_in_one_bay: bool = False
    drive: Current | None = None
    retention: str | PullFactors = ""
