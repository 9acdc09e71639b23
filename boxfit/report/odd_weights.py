"""What is odd about a car's weights: readings no car gives, a twisted car, a plate that is full already."""

from collections.abc import Iterator

from boxfit.car import Car, CornerWeights
from boxfit.weight.corners import Corners, margins, states
from boxfit.weight.raised_axle import height_error

PLAUSIBLE_SHARES = (0.3, 0.7)
"""Front shares outside this are rare (common practice, no source)."""
EVEN_CROSS = (0.47, 0.53)
"""Cross shares outside this are read off a twisted car or an uneven floor (common practice, no source)."""
HEIGHT_ERROR = 50.0
"""A height of mass that may be further out [mm] says little (our own choice)."""


def odd_weights(car: Car) -> Iterator[str]:
    """Findings about what the scales read, and about what the maker's plate leaves for a pack."""
    weighed = car.weighed
    if weighed is None:
        return
    read = Corners(weighed.front_left, weighed.front_right, weighed.rear_left, weighed.rear_right)
    share = read.front / read.gross
    if not PLAUSIBLE_SHARES[0] <= share <= PLAUSIBLE_SHARES[1]:
        yield f"car.toml: weighed: front share {share:.2f} of the stripped car is rare; wheels mixed up?"
    if not EVEN_CROSS[0] <= read.cross_share <= EVEN_CROSS[1]:
        yield (
            f"car.toml: weighed: front right and rear left carry {read.cross_share:.3f} of the car, usual is "
            f"{EVEN_CROSS[0]} to {EVEN_CROSS[1]} (common practice): twisted springs, an uneven floor, or two "
            "wheels of an axle changed over?"
        )
    if weighed.raised is not None:
        error = height_error(weighed, weighed.raised, car.wheelbase)
        if error > HEIGHT_ERROR:
            yield f"car.toml: weighed.raised: the height may be out by {error:.0f} mm; raise the axle higher"
    yield from _nothing_left(car, weighed)


def _nothing_left(car: Car, weighed: CornerWeights) -> Iterator[str]:
    """Limits that are reached without any pack, everything fitted and carried."""
    *_, everything = states(car, weighed, ())
    for margin in margins(everything, car.limits):
        if margin.left <= 0.0:
            key = margin.what.replace(" ", "_")
            yield (
                f"car.toml: limits.{key}: {margin.limit:g} kg leave nothing for a pack: with all that is "
                f"fitted and carried there are {margin.load:.1f} kg on it already"
            )
