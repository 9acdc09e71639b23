"""Whether limits and target hold with a pack as made, everything on. [kg, -]"""

from dataclasses import dataclass

from boxfit.car import Car
from boxfit.weight.corners import Margin, judged, margins, states
from boxfit.weight.demands import SHARE_STEP
from boxfit.weight.pack import Pack

LEAST_OVER = 1e-9
"""What a limit may be passed by [kg] without being broken: binary sums."""


@dataclass(frozen=True)
class Held:
    """Limits broken with everything carried, and how far [-] the front share is beyond its tolerance.

    `missed` is 0 where the target is met, or there is none; `share` [-] is None where it is not known.
    """

    over: tuple[Margin, ...] = ()
    missed: float = 0.0
    share: float | None = None


def held(car: Car, pack: Pack) -> Held:
    """What the pack breaks. Nothing is known of a car that was not weighed: nothing is broken then."""
    if car.weighed is None:
        return Held()
    found = states(car, car.weighed, pack.masses)
    over = tuple(margin for margin in margins(found[-1], car.limits) if margin.left < -LEAST_OVER)
    share = judged(car, found).front_share
    return Held(over, beyond_tolerance(car, share), share)


def beyond_tolerance(car: Car, share: float) -> float:
    """How far [-] a front share is beyond the tolerance of the target, no finer than can be weighed.

    >>> from boxfit.car import Target
    >>> car = Car("c", "c", 2000.0, 1200.0, 1200.0, (), target=Target(0.5, 0.01))
    >>> beyond_tolerance(car, 0.5125), beyond_tolerance(car, 0.49)
    (0.0025, 0.0)
    """
    if car.target is None:
        return 0.0
    off = round(share - car.target.front_share, SHARE_STEP)
    beyond = abs(off) - car.target.tolerance
    return round(beyond, SHARE_STEP + 2) if beyond > LEAST_OVER else 0.0
