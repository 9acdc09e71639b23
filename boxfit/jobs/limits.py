"""What holds a layout back, and what easing it brings."""

import json
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.car import Car
from boxfit.jobs.going_on import NothingFitsError, Search
from boxfit.jobs.laid_out import laid_out
from boxfit.jobs.landing import landing, origin_of
from boxfit.layout import Layout
from boxfit.module import Module

if TYPE_CHECKING:
    from boxfit.report.limits_text import Page
    from boxfit.search.limits import Eased, Limit


LIMITS_CSV = "limits.csv"


def limits(car: Car, module: Module, target: Path, search: Search) -> tuple[str, bool]:
    """What easing each thing that holds the layout back would bring: the page, and whether any fits.

    The same lands as limits.csv beside other results. What the judge does not clear is not claimed. Raises
    JudgedWrongError where that is the layout as it is, InputError where limits.csv cannot be put there.
    """
    from boxfit.files.record import LIMITS
    from boxfit.report.limits_text import limits_csv, limits_page

    page = _found(car, module, search)
    with landing(target, LIMITS, car, module, origin_of(car, module, page.layout)) as folder:
        (folder / LIMITS_CSV).write_bytes(limits_csv(page).encode())
    return limits_page(page), page.layout is not None


def _found(car: Car, module: Module, search: Search) -> "Page":
    """All that limits tells."""
    from boxfit.report.limits_text import Page
    from boxfit.search.easing import easings
    from boxfit.search.limits import Asked, Limit
    from boxfit.search.limits import limits as looked_at

    tell = search.tell
    tell("searching for the best layout")
    layout: Layout | None = None
    reasons: tuple[str, ...] = ()
    try:
        layout = laid_out(car, module, search.watch)
    except NothingFitsError as nothing:
        reasons = nothing.reasons
    names = [f"{easing.bay} {easing.what}".strip() for easing in easings(car)]
    asked = Asked(car, module, layout.count if layout and layout.target_met else 0)
    found: list[Limit] = []
    tell(f"easing {names[0]}" if names else "nothing to ease")
    for limit in looked_at(asked, search.watch, search.processes):
        found.append(_as_judged(limit, car, module))
        if len(found) < len(names):
            tell(f"easing {len(found) + 1} of {len(names)}: {names[len(found)]}")
    return Page(car, module, layout, reasons, tuple(found))


def _as_judged(limit: "Limit", car: Car, module: Module) -> "Limit":
    """The limit with only those claims that the judge clears in the car eased so."""
    from boxfit.files.layout_json import layout_bytes
    from boxfit.judge.layout import judge_layout

    def stands(eased: "Eased") -> bool:
        changed = limit.easing.change(car, eased.by)
        return not judge_layout(json.loads(layout_bytes(eased.layout)), changed, module)

    claims = (limit.least, limit.most, limit.alike)
    least, most, alike = (one if one and stands(one) else None for one in claims)
    sound = all(one in (None, least, most, alike) for one in claims)
    pair = limit.pair and _as_judged(limit.pair, car, module)
    return replace(limit, least=least or most, most=most or least, pair=pair, alike=alike, stands=sound)
