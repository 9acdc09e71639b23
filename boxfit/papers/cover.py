"""The first page: which car, what was done, what is in here, and who signs."""

from collections.abc import Iterator, Sequence

from boxfit.box.swelling import heat_of
from boxfit.electrics.load import overdrawn
from boxfit.papers.case import WORKING_AID, Case, missing
from boxfit.papers.fixings import failing, percent
from boxfit.papers.flow import Block, Heading, Points, Section, Words
from boxfit.papers.grid import Grid
from boxfit.retention.lug import LIFTED
from boxfit.weight.corners import judged, margins
from boxfit.weight.held import LEAST_OVER, beyond_tolerance

TO_SIGN = 8.0
"""Height of a row to sign in [mm]."""
TO_FILL = {1: 58.0, 2: 20.0, 3: 42.0}
"""Widths of the columns to fill in [mm]."""
MOST_NAMED = 3
"""So many failing items are named on the cover; the others stand in their section."""


def cover(case: Case, contents: Sequence[tuple[str, str]]) -> Section:
    """The cover; `contents` are the titles of the sections with their pages."""
    return Section(
        f"{case.car.name}: papers of its conversion to electric drive", tuple(_blocks(case, contents))
    )


def _blocks(case: Case, contents: Sequence[tuple[str, str]]) -> Iterator[Block]:
    yield Words(
        f"{WORKING_AID}. High voltage, crash, lifting, fire and welding can hurt people: no figure in here "
        "replaces licensed practice, and none allows the car onto the road."
    )
    yield Grid("What was done", ("", ""), tuple(_done(case)))
    yield Heading("What stands against it")
    yield Points(tuple(against(case)))
    yield Grid("What is in here", ("part", "page"), tuple(contents), frozenset((1,)))
    yield Grid(
        "Signed",
        ("", "name, workshop or licence number", "date", "signature"),
        SIGNED,
        least=TO_SIGN,
        blank=TO_FILL,
    )


SIGNED = (
    ("made by", "", "", ""),
    ("electrics checked by", "", "", ""),
    ("checked by a licensed engineer", "", "", ""),
    ("inspected by", "", "", ""),
)


def _done(case: Case) -> Iterator[tuple[str, str]]:
    """The conversion in a few rows."""
    layout, module = case.layout, case.module
    yield ("car", case.car.name)
    yield (
        "battery",
        f"{layout.count} modules {module.name}, {layout.series} in series x {layout.parallel} parallel",
    )
    nominal = layout.series * module.voltage.nominal
    yield (
        "energy, voltage",
        f"{layout.energy:.1f} kWh; {nominal:.1f} V nominal, {case.highest_volts:.1f} V full",
    )
    for one in case.built:
        rules = one.bay.box
        words = f"{len(one.box.modules)} modules; {rules.material} {rules.thickness:g} mm, {rules.process}"
        yield (one.parts.name, words)
    if case.car.fitted:
        yield ("also fitted", "; ".join(f"{one.name} ({one.mass:g} kg)" for one in case.car.fitted))
    if case.states:
        gross = case.states[1].corners.gross - case.states[0].corners.gross
        yield ("mass added to the stripped car", f"{gross:.1f} kg")
    yield ("load factors", f"rule set {case.retention.rules.name} ({case.retention.rules.status})")


def against(case: Case) -> Iterator[str]:
    """What an inspector would ask first: failing items, limits broken, target missed, what is missing."""
    failed = failing(case)
    for use in failed[:MOST_NAMED]:
        how = use.pull if use.pull == LIFTED else f"pulled {use.pull}"
        yield f"does not pass: {use.item}, {use.check}, {how}: {percent(use)}"
    if len(failed) > MOST_NAMED:
        yield f"{len(failed) - MOST_NAMED} more checks of fixings do not pass: see there"
    yield from _loads(case)
    yield from _live(case)
    yield from (f"missing: {words}" for words in missing(case))
    if not failed:
        yield f"none of the {len(case.retention.uses)} checks of boxes and fixings fails"


def _loads(case: Case) -> Iterator[str]:
    """Limits that are broken with everything aboard, and a target that is missed."""
    if not case.states:
        return
    for one in margins(case.states[-1], case.car.limits):
        if one.left < -LEAST_OVER:
            yield f"{one.what} over its limit by {-one.left:.1f} kg {case.states[-1].name}"
    target, state = case.car.target, judged(case.car, case.states)
    if target and beyond_tolerance(case.car, state.front_share):
        yield (
            f"front share {state.front_share:.3f} {state.name} misses the target {target.front_share:g} "
            f"give or take {target.tolerance:g}"
        )


def _live(case: Case) -> Iterator[str]:
    """Currents beyond what may be given, no disconnect, boxes that get too warm."""
    yield from overdrawn(case.electrics.loads, f"{case.module.stem}.toml", case.layout.parallel)
    if not any(box.has_disconnect for box in case.electrics.boxes):
        yield "no box has the service disconnect: see the electrics"
    for built in case.built:
        if heat_of(built, case.module).needs:
            yield f"{built.parts.name}: cooling is needed for lasting use: see the electrics"
