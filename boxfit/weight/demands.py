"""What a car asks of its pack's moment about the front axle: limits, target, and what would be best."""

from dataclasses import dataclass
from math import inf

from boxfit.car import Car, Limits, Target
from boxfit.weight.balance import Moments, stripped_centre, without_pack

SHARE_STEP = 4
"""Decimals to which front shares are compared: no scale in a workshop tells them finer."""


@dataclass(frozen=True)
class MomentRange:
    """The pack's moment [kg mm] about the front axle must lie between these; empty where low > high."""

    low: float
    high: float

    def holds(self, moment: float, slack: float = 0.0) -> bool:
        """True where the moment lies in the range, give or take the slack [kg mm]."""
        return self.low - slack <= moment <= self.high + slack

    def meets(self, other: "MomentRange") -> bool:
        """True where some moment lies in both.

        >>> MomentRange(0.0, 2.0).meets(MomentRange(1.0, 3.0)), MomentRange(0, 1).meets(MomentRange(2, 3))
        (True, False)
        """
        both = self.and_also(other)
        return both.low <= both.high

    def and_also(self, other: "MomentRange") -> "MomentRange":
        """The moments that lie in both."""
        return MomentRange(max(self.low, other.low), min(self.high, other.high))


ANYWHERE = MomentRange(-inf, inf)


@dataclass(frozen=True)
class Demands:
    """The car without its pack as the target judges it and as the plate does, and what both ask.

    Both are None where the car was not weighed: nothing is asked then.
    """

    wheelbase: float
    limits: Limits
    target: Target | None
    kept_share: float
    judged: Moments | None
    laden: Moments | None

    @classmethod
    def of(cls, car: Car) -> "Demands":
        """What this car asks; without a target the stripped car's own front share is the one to come near."""
        if car.weighed is None:
            return cls(car.wheelbase, car.limits, None, 0.0, None, None)
        share = 1.0 + stripped_centre(car, car.weighed)[0] / car.wheelbase
        judged = without_pack(car, car.weighed, everything=False)
        laden = without_pack(car, car.weighed, everything=True)
        return cls(car.wheelbase, car.limits, car.target, share, judged, laden)

    def within_limits(self, mass: float) -> MomentRange:
        """Moments [kg mm] of a pack of this mass [kg] that break no limit with everything carried."""
        if self.laden is None:
            return ANYWHERE
        gross = self.laden.mass + mass
        if self.limits.gross is not None and gross > self.limits.gross:
            return MomentRange(inf, -inf)
        low, high = -inf, inf
        if self.limits.front_axle is not None:
            high = (self.limits.front_axle - gross) * self.wheelbase - self.laden.x
        if self.limits.rear_axle is not None:
            low = -self.limits.rear_axle * self.wheelbase - self.laden.x
        return MomentRange(low, high)

    def allowed(self, mass: float) -> MomentRange:
        """Moments [kg mm] that break no limit and keep the front share within tolerance of the target."""
        limits = self.within_limits(mass)
        if self.judged is None or self.target is None:
            return limits
        low = self._for_share(mass, self.target.front_share - self.target.tolerance)
        high = self._for_share(mass, self.target.front_share + self.target.tolerance)
        return limits.and_also(MomentRange(low, high))

    def wanted_x(self, mass: float) -> float | None:
        """The moment [kg mm] that meets the target to a hair; None where the car was not weighed."""
        share = self.target.front_share if self.target else self.kept_share
        return None if self.judged is None else self._for_share(mass, share)

    @property
    def wanted_y(self) -> float:
        """The pack's sideways moment [kg mm] that puts the car's mass on the centre line."""
        return 0.0 if self.judged is None else -self.judged.y

    def missed(self, mass: float, moment: float) -> float:
        """How far [-] from the target a pack of this mass [kg] and moment [kg mm] leaves the front share."""
        if self.target is None or self.judged is None:
            return 0.0
        share = 1.0 + (self.judged.x + moment) / (self.wheelbase * (self.judged.mass + mass))
        return round(abs(share - self.target.front_share), SHARE_STEP)

    def sideways(self, mass: float, moment: float) -> float:
        """How far [mm] from the centre line the car's mass, or the pack's where unknown, comes to lie."""
        car = self.judged.mass if self.judged else 0.0
        return abs(moment - self.wanted_y) / (mass + car)

    def _for_share(self, mass: float, share: float) -> float:
        """The pack's moment [kg mm] that gives the car, as the target judges it, this front share [-]."""
        if self.judged is None:
            raise ValueError("a car that was not weighed has no front share")
        return (share - 1.0) * self.wheelbase * (self.judged.mass + mass) - self.judged.x
