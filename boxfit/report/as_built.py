"""Where the parts as built lead the weights out of what was asked, and what would bring them back.

The search weighs modules and empty boxes; what is fixed to a box is known only once it is made. A build
searches again where that breaks a limit (jobs/holding.py); findings are for whatever is not so made. [kg, mm]
"""

from collections.abc import Iterator
from dataclasses import replace

from boxfit.car import Car, Limits, Target
from boxfit.layout import Layout, Weights
from boxfit.report.columns import counted
from boxfit.weight.corners import State, judged, margins, states
from boxfit.weight.demands import SHARE_STEP
from boxfit.weight.held import LEAST_OVER, beyond_tolerance
from boxfit.weight.pack import Pack

NEAR_ENOUGH = 500.0
"""Moving something fitted further than this [mm] is no advice (our own choice)."""


def pack_words(pack: Pack, searched: Pack) -> str:
    """What the pack weighs, and how far that is from the search's own sum."""
    boxes = counted(len(searched.boxes), "box", "boxes")
    if not pack.every_part:
        return (
            f"{searched.sums.mass:.1f} kg in {boxes} as the search weighs them; what is fixed to them "
            "(hold-downs, feet, fittings) is not in it, build weighs every part"
        )
    whole, sums = pack.sums, searched.sums
    beside = " and link cables" if len(pack.boxes) > len(searched.boxes) else ""
    words = f"{whole.mass:.1f} kg in {boxes}{beside}, every part weighed, screws and nuts apart"
    if not whole.mass or not sums.mass:
        return words
    return (
        f"{words}: {whole.mass - sums.mass:+.1f} kg on the search's own sum, its centre "
        f"{_shifted(whole.x / whole.mass - sums.x / sums.mass)}"
    )


def _shifted(along: float) -> str:
    """A move along the car [mm] in words.

    >>> _shifted(3.6), _shifted(-2.0), _shifted(0.2)
    ('4 mm further forward', '2 mm further back', 'where it was')
    """
    if abs(along) < 0.5:
        return "where it was"
    return f"{abs(along):.0f} mm further {'forward' if along > 0.0 else 'back'}"


def as_built(car: Car, layout: Layout, pack: Pack, found: tuple[State, ...]) -> tuple[str, ...]:
    """Findings, each with its figure; of a pack only searched that what it holds is not the last word."""
    if not pack.every_part:
        return tuple(_without_fittings(car))
    return (*_share(car, layout, found), *_over(car, found))


def weighed_as_built(car: Car, layout: Layout, modules: float, pack: Pack | None) -> Layout:
    """The layout with the weights as built, in the state that the target judges; of a car that was not
    weighed, those of the pack alone.

    `modules` is what all modules weigh [kg].
    """
    if pack is None:
        return layout
    boxes = pack.sums.mass - modules
    if car.weighed is None:
        return replace(layout, weights=replace(layout.weights, modules=modules, boxes=boxes))
    state = judged(car, states(car, car.weighed, pack.masses))
    weights = Weights(
        modules=modules,
        boxes=boxes,
        front_axle=state.corners.front,
        rear_axle=state.corners.rear,
        gross=state.corners.gross,
        front_share=state.front_share,
        left_share=state.left_share,
        centre_of_mass=state.centre,
    )
    return replace(layout, weights=weights)


def _without_fittings(car: Car) -> Iterator[str]:
    """That limits and target hold for boxes and modules alone, where any is asked."""
    if car.target is not None or car.limits != Limits():
        yield (
            "Limits and target are held without what is fixed to the boxes and without link cables, which "
            "come on top of these loads: build weighs every part, and searches again where that breaks one."
        )


def _share(car: Car, layout: Layout, found: tuple[State, ...]) -> Iterator[str]:
    """The front share as built, where it lies beyond the tolerance."""
    if car.target is None:
        return
    target, state = car.target, judged(car, found)
    off = round(state.front_share - target.front_share, SHARE_STEP)
    beyond = beyond_tolerance(car, state.front_share)
    if not beyond:
        return
    met = "the search met it with what it kept" if layout.reserve else "the search, without fittings, met it"
    searched = met if layout.target_met else "as searched too"
    aboard = "" if state is found[1] else f" {state.name}"
    yield (
        f"FINDING: front share {state.front_share:.4f} as built{aboard} misses the target "
        f"{target.front_share:g} give or take {target.tolerance:g} by {beyond:.4f} ({searched}). "
        f"{_remedy(car, target, state, off)}"
    )


def _remedy(car: Car, target: Target, state: State, off: float) -> str:
    """What would bring the front share back to the edge of its tolerance."""
    loads, heavy = state.corners, off > 0.0
    edge = target.front_share + (target.tolerance if heavy else -target.tolerance)
    light = loads.front / edge - loads.gross if heavy else (edge * loads.gross - loads.front) / (1.0 - edge)
    words = f"Try: {light:.1f} kg more over the {'rear' if heavy else 'front'} axle"
    if car.fitted:
        item = max(car.fitted, key=lambda one: one.mass)
        move = abs(loads.front - edge * loads.gross) * car.wheelbase / item.mass
        if move <= NEAR_ENOUGH:
            way = "back" if heavy else "forward"
            words += f", or {item.name} ({item.mass:g} kg) {move:.0f} mm further {way}"
    return f"{words}, or a wider tolerance."


def _over(car: Car, found: tuple[State, ...]) -> Iterator[str]:
    """Limits of the maker's plate that the car with everything breaks as built."""
    everything = found[-1]
    for margin in margins(everything, car.limits):
        if margin.left < -LEAST_OVER:
            yield (
                f"FINDING: {margin.what} {margin.load:.1f} kg {everything.name} as built, over its limit of "
                f"{margin.limit:g} kg by {-margin.left:.1f} kg: it may not be driven so. Try: "
                f"{-margin.left:.1f} kg less carried or fitted there, lighter boxes, or fewer modules."
            )
