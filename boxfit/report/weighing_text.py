"""The finished car's readings against the forecast, item by item, in words. [kg, mm]"""

from collections.abc import Iterator
from dataclasses import dataclass

from boxfit.car import Car, CornerWeights, PointMass
from boxfit.module import Module
from boxfit.report.balance import sideways
from boxfit.report.columns import broken, listed, named, table
from boxfit.report.wheels_text import LIMITED, WHEELS, short
from boxfit.weight.corners import Corners, State, corners_of, margins
from boxfit.weight.pack import Pack
from boxfit.weight.scales import Hint, Item, Weighing, given_as

PLACES = ("front left", "front right", "rear left", "rear right")
CAUTIONS = (
    "Weigh on level ground, tyres at their pressure, steering straight, springs settled by rolling the car, "
    "brakes off and wheels chocked; nobody under the car (common practice, no source).",
    "A working aid, not an approval: a hint is a place to look, not a finding; local codes and "
    "licensed practice decide, and an engineer signs.",
)


@dataclass(frozen=True)
class Page:
    """A weighing and what it was held against: the pack, who was aboard, how the forecast was come by."""

    car: Car
    module: Module
    pack: Pack
    aboard: tuple[PointMass, ...]
    weighing: Weighing
    notes: tuple[str, ...]


def items_of(car: Car, pack: Pack, aboard: tuple[PointMass, ...]) -> tuple[Item, ...]:
    """Everything that came into or onto the stripped car."""
    return (
        *(Item(one.name, one.mass, one.at) for one in car.fitted),
        *pack.boxes,
        *(Item(one.name, one.mass, one.at) for one in aboard),
    )


def weighing_text(page: Page, forecast: State, weighed: CornerWeights) -> str:
    """At most 100 letters to a line, ends with a line feed."""
    car, weighing = page.car, page.weighing
    lines = [f"{car.name} with {page.module.name}, weighed"]
    aboard = ", ".join(one.name for one in page.aboard) or "nobody, as converted"
    lines += [*named("aboard", aboard), *listed(page.notes), "", "item by item"]
    lines += [*table(list(_items(page, weighed))), *table(list(_shares(weighing, forecast))), ""]
    lines += [*broken(_answer(weighing)), *listed(tuple(_hints(page))), ""]
    lines += ["by these readings", *listed(tuple(_asked(page))), ""]
    lines += ["cautions", *listed(CAUTIONS)]
    return "\n".join(lines) + "\n"


def _items(page: Page, weighed: CornerWeights) -> Iterator[tuple[str, ...]]:
    """What each thing puts on the wheels, the sum of it, and what was read."""
    weighing = page.weighing
    yield ("kg", "mass", *WHEELS, *LIMITED)
    stripped = Corners(weighed.front_left, weighed.front_right, weighed.rear_left, weighed.rear_right)
    yield _row("stripped car", stripped)
    for item in items_of(page.car, page.pack, page.aboard):
        loads = corners_of(page.car, [(item.mass, item.at)])
        yield (short(item.name), f"{item.mass:.1f}", *_figures(loads, ""), "", "", "")
    yield _row("forecast", weighing.forecast)
    yield _row("read", weighing.read)
    yield _row("read less forecast", weighing.off, "+")


def _row(name: str, loads: Corners, sign: str = "") -> tuple[str, ...]:
    axles = (_kilograms(load, sign) for load in (loads.front, loads.rear, loads.gross))
    return (name, "", *_figures(loads, sign), *axles)


def _figures(loads: Corners, sign: str) -> tuple[str, ...]:
    return tuple(_kilograms(load, sign) for load in loads.each)


def _kilograms(load: float, sign: str) -> str:
    """A load to a tenth, never minus zero."""
    return f"{round(load, 1) + 0.0:{sign}.1f}"


def _shares(weighing: Weighing, forecast: State) -> Iterator[tuple[str, ...]]:
    """Shares of the whole as forecast and as read."""
    read = State("read", weighing.read, forecast.centre)
    yield ("share", "front", "left", "cross")
    for name, state in (("forecast", forecast), ("read", read)):
        shares = (state.front_share, state.left_share, state.corners.cross_share)
        yield (name, *(f"{share:.3f}" for share in shares))


def _answer(weighing: Weighing) -> str:
    """Whether the car weighs what was forecast, and by how much it does not."""
    within = f"{2.0 * weighing.scale:g} kg"
    if weighing.agrees:
        return (
            f"AGREES: every wheel within {within} of the forecast (two weighings, {weighing.scale:g} kg each)"
        )
    off = sorted(zip(PLACES, weighing.off.each, strict=True), key=lambda one: -abs(one[1]))
    told = ", ".join(f"{place} {load:+.1f} kg" for place, load in off if abs(load) > 2.0 * weighing.scale)
    return f"DOES NOT AGREE within {within}: {told}; what it hints at, likeliest first:"


def _hints(page: Page) -> Iterator[str]:
    """What would explain the difference: wheels changed over, an item, or something not listed."""
    weighing = page.weighing
    if weighing.agrees:
        return
    if order := given_as(weighing.forecast, weighing.read):
        yield (
            "the readings fit far better when taken as those of "
            f"{', '.join(PLACES[wheel] for wheel in order)}, in this order: wheels mixed up?"
        )
    yield from (_hint(hint, page.module) for hint in weighing.hints)
    if weighing.at is not None:
        x, y = weighing.at
        what = "not listed" if weighing.off.gross > 0.0 else "listed but not there"
        along = f"{abs(x):.0f} mm {'behind' if x <= 0.0 else 'ahead of'} the front axle"
        yield f"or {abs(weighing.off.gross):.1f} kg {what}: it would lie {along}, {sideways(y)}"
    elif not weighing.hints:
        yield "no single item explains it: look for two errors, or weigh again"


def _hint(hint: Hint, module: Module) -> str:
    """One hint in words, with how many modules it would be and what it leaves."""
    words = f"{hint.item}: {hint.error} {hint.figure:.{1 if hint.unit == 'kg' else 0}f} {hint.unit}"
    modules = round(hint.figure / module.mass)
    if (
        hint.error in ("heavier by", "lighter by")
        and modules >= 1
        and abs(hint.figure - modules * module.mass) < 0.1 * module.mass
    ):
        words += f" (about {modules} module{'s' if modules > 1 else ''} of {module.mass:g} kg)"
    return f"{words}; leaves {hint.left:.1f} kg unexplained"


def _asked(page: Page) -> Iterator[str]:
    """Target and limits, from the readings and by sums for whoever was not aboard."""
    car, read = page.car, page.weighing.read
    target = car.target
    if target is not None:
        wanted = [one for one in car.carried if one.name in target.aboard]
        loads = _changed(page, read, wanted)
        share = loads.front / loads.gross
        off = abs(share - target.front_share)
        met = "met" if off <= target.tolerance + 1e-9 else f"MISSED by {off - target.tolerance:.3f}"
        names = ", ".join(one.name for one in wanted) or "nobody"
        yield (
            f"front share {share:.3f} with {names}, target {target.front_share:g} give or take "
            f"{target.tolerance:g}: {met}"
        )
    everything = _changed(page, read, list(car.carried))
    for margin in margins(State("", everything, (0.0, 0.0, None)), car.limits):
        left = f"{margin.left:+.1f} kg left" if margin.left >= 0.0 else f"OVER by {-margin.left:.1f} kg"
        yield f"{margin.what} {margin.load:.1f} kg with everything carried, limit {margin.limit:g}: {left}"
    yield "who was not aboard is added by sums, not weighed"


def _changed(page: Page, read: Corners, wanted: list[PointMass]) -> Corners:
    """The readings with just these aboard."""
    more = corners_of(page.car, [(one.mass, one.at) for one in wanted if one not in page.aboard])
    less = corners_of(page.car, [(one.mass, one.at) for one in page.aboard if one not in wanted])
    parts = zip(read.each, more.each, less.each, strict=True)
    return Corners(*(load + added - gone for load, added, gone in parts))
