"""Loads under the four wheels state by state, in words and as a list. [kg, mm]"""

import csv
import io
from collections.abc import Iterator

from boxfit.car import Car, CornerWeights
from boxfit.layout import Layout
from boxfit.report.as_built import as_built, pack_words
from boxfit.report.columns import listed, named, table
from boxfit.weight.corners import Corners, Margin, State, margins, states
from boxfit.weight.pack import Pack

WHEELS = ("FL", "FR", "RL", "RR")
LONGEST = 26
"""Letters of a name in a table; what is longer is cut."""
LIMITED = ("front axle", "rear axle", "gross")
CSV_HEADS = (
    "state",
    *(f"{wheel} [kg]" for wheel in ("front left", "front right", "rear left", "rear right")),
    *(f"change {wheel} [kg]" for wheel in ("front left", "front right", "rear left", "rear right")),
    *(f"{what} [kg]" for what in LIMITED),
    *(f"{what} limit [kg]" for what in LIMITED),
    *(f"{what} margin [kg]" for what in LIMITED),
    "front share",
    "left share",
    "cross share",
    *(f"centre {axis} [mm]" for axis in "xyz"),
    "pack",
    "note",
)
NOTE = "a working aid: weigh the finished car; springs and an uneven floor shift load across, not counted"


def wheels_lines(car: Car, layout: Layout, pack: Pack, searched: Pack) -> Iterator[str]:
    """Four wheels, axles against limits, shares and centre, and what the parts as built change."""
    yield from named("pack", pack_words(pack, searched))
    if car.weighed is None:
        yield from named("loads", "not known, the car was not weighed")
        return
    found = states(car, car.weighed, pack.masses)
    yield from table(list(_loads(car, found)))
    yield from table(list(_balance(found)))
    yield from listed(as_built(car, layout, pack, found))


def short(name: str) -> str:
    """A name that leaves room for the figures beside it.

    >>> short("drive motor, adaptor plate and mount")
    'drive motor, adaptor pl...'
    """
    return name if len(name) <= LONGEST else f"{name[: LONGEST - 3].rstrip()}..."


def _loads(car: Car, found: tuple[State, ...]) -> Iterator[tuple[str, ...]]:
    """Wheels, axles and gross, what the conversion adds, limits and margins."""
    yield ("kg", *WHEELS, *LIMITED)
    for state in found:
        yield (short(state.name), *_wheels(state.corners), *_axles(state.corners))
    stripped, converted, everything = found[0].corners, found[1], found[-1]
    yield ("conversion adds", *_wheels(converted.corners.less(stripped), "+"), "", "", "")
    told = {margin.what: margin for margin in margins(everything, car.limits)}
    if told:
        yield ("limit", "", "", "", "", *(_limit(told.get(what)) for what in LIMITED))
        aboard = "margin, all aboard" if car.carried else "margin"
        yield (aboard, "", "", "", "", *(_left(told.get(what)) for what in LIMITED))


def _wheels(loads: Corners, sign: str = "") -> tuple[str, ...]:
    return tuple(f"{load:{sign}.1f}" for load in loads.each)


def _axles(loads: Corners) -> tuple[str, ...]:
    return tuple(f"{load:.1f}" for load in (loads.front, loads.rear, loads.gross))


def _limit(margin: Margin | None) -> str:
    return f"{margin.limit:g}" if margin else "-"


def _left(margin: Margin | None) -> str:
    if margin is None:
        return "-"
    return f"{margin.left:+.1f}" if margin.left >= 0.0 else f"OVER {-margin.left:.1f}"


def _balance(found: tuple[State, ...]) -> Iterator[tuple[str, ...]]:
    """Shares and the centre of mass."""
    yield ("shares; mm", "front share", "left share", "cross share", "x", "y", "z")
    for state in found:
        x, y, z = state.centre
        height = "not known" if z is None else str(round(z))
        shares = (state.front_share, state.left_share, state.corners.cross_share)
        yield (short(state.name), *(f"{share:.3f}" for share in shares), str(round(x)), str(round(y)), height)


def weights_csv(car: Car, weighed: CornerWeights, pack: Pack) -> str:
    """One row for each state; `change` is what each wheel gains over the stripped car."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(CSV_HEADS)
    found = states(car, weighed, pack.masses)
    counted = "every part" if pack.every_part else "as searched"
    for state in found:
        loads, change = state.corners, state.corners.less(found[0].corners)
        told = {margin.what: margin for margin in margins(state, car.limits)}
        limits = [told.get(what) for what in LIMITED]
        shares = (state.front_share, state.left_share, loads.cross_share)
        writer.writerow(
            (
                state.name,
                *(f"{load:.2f}" for load in loads.each),
                *(f"{load + 0.0:.2f}" for load in change.each),
                *(f"{load:.2f}" for load in (loads.front, loads.rear, loads.gross)),
                *("" if one is None else f"{one.limit:.2f}" for one in limits),
                *("" if one is None else f"{one.left:.2f}" for one in limits),
                *(f"{share:.4f}" for share in shares),
                *("" if place is None else f"{place:.1f}" for place in state.centre),
                counted,
                NOTE,
            )
        )
    return text.getvalue()
