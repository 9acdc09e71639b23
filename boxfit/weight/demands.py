"""What target and limits ask of the pack, as a range for its moment about the front axle."""

from dataclasses import dataclass
from math import inf

from boxfit.car import Car, CornerWeights
from boxfit.weight.balance import without_pack


@dataclass(frozen=True)
class MomentRange:
    """The pack's moment [kg mm] about the front axle must lie between these; empty where low > high."""

    low: float
    high: float

    def holds(self, moment: float, slack: float = 0.0) -> bool:
        """True where the moment lies in the range, give or take the slack [kg mm]."""
        return self.low - slack <= moment <= self.high + slack


def limit_range(car: Car, weighed: CornerWeights, pack_mass: float) -> MomentRange:
    """Moments [kg mm] for which no limit of the plate is exceeded with everything carried."""
    shell = without_pack(car, weighed, everything=True)
    gross = shell.mass + pack_mass
    low, high = -inf, inf
    if car.limits.gross is not None and gross > car.limits.gross:
        return MomentRange(inf, -inf)
    if car.limits.front_axle is not None:
        high = (car.limits.front_axle - gross) * car.wheelbase - shell.x
    if car.limits.rear_axle is not None:
        low = -car.limits.rear_axle * car.wheelbase - shell.x
    return MomentRange(low, high)


def moment_for_share(car: Car, weighed: CornerWeights, pack_mass: float, front_share: float) -> float:
    """The pack's moment [kg mm] that gives the car, as the target judges it, this front share [-]."""
    shell = without_pack(car, weighed, everything=False)
    return (front_share - 1.0) * car.wheelbase * (shell.mass + pack_mass) - shell.x


def target_range(car: Car, weighed: CornerWeights, pack_mass: float) -> MomentRange:
    """Moments [kg mm] that keep the front share within tolerance of the target; all where none is set."""
    if car.target is None:
        return MomentRange(-inf, inf)
    share, tolerance = car.target.front_share, car.target.tolerance
    return MomentRange(
        moment_for_share(car, weighed, pack_mass, share - tolerance),
        moment_for_share(car, weighed, pack_mass, share + tolerance),
    )
