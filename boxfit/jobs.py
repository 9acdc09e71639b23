"""The jobs behind the commands: search, judge, and write the results whole or not at all."""

import json
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.car import Car
from boxfit.judge.finding import Finding
from boxfit.layout import Layout
from boxfit.module import Module

if TYPE_CHECKING:
    from boxfit.search.limits import Eased, Limit
    from boxfit.search.searches import BaySearches
    from boxfit.search.watch import Watch

Tell = Callable[[str], None]
"""Takes a line about what is being done."""


class NothingFitsError(Exception):
    """No layout meets the hard rules; `reasons` say why, one sentence each."""

    def __init__(self, reasons: tuple[str, ...]) -> None:
        super().__init__("\n".join(reasons))
        self.reasons = reasons


class JudgedWrongError(Exception):
    """The judge found fault with a result that should have none; nothing is written."""

    def __init__(self, findings: Sequence[Finding]) -> None:
        super().__init__("\n".join(f"{one.code}: {one.place}: {one.text}" for one in findings))


def check(car: Car, target: Path, tell: Tell) -> str:
    """Draws every bay as surveyed; returns what the car holds, and what is missing or odd.

    Raises InputError where the drawings cannot be written.
    """
    from boxfit.files.results import whole_or_nothing
    from boxfit.report.bay_views import write_bay_views
    from boxfit.report.check_text import check_text

    with whole_or_nothing(target) as folder:
        tell("drawing the bays")
        write_bay_views(car, folder)
    return check_text(car)


def laid_out(
    car: Car, module: Module, watch: "Watch | None" = None, searches: "BaySearches | None" = None
) -> Layout:
    """The best layout, judged. Raises NothingFitsError or JudgedWrongError."""
    from boxfit.search.find import NoLayout, find_layout

    found = find_layout(car, module, watch, searches)
    if isinstance(found, NoLayout):
        raise NothingFitsError(found.reasons)
    refuse_misjudged(found, car, module)
    return found


def refuse_misjudged(layout: Layout, car: Car, module: Module) -> None:
    """Raises JudgedWrongError where the judge finds fault with a layout of the car."""
    from boxfit.files.layout_json import layout_bytes
    from boxfit.judge.layout import judge_layout

    findings = judge_layout(json.loads(layout_bytes(layout)), car, module)
    if findings:
        raise JudgedWrongError(findings)


@dataclass(frozen=True)
class Search:
    """How a search goes on: under which watch, in how many processes, and who is told."""

    watch: "Watch"
    processes: int
    tell: Tell


@contextmanager
def best_and_others(
    car: Car, module: Module, search: Search
) -> Iterator[tuple[Layout, Callable[[], Layout]]]:
    """The best layout, and what gives the same with its alternatives once they are asked for; all judged.

    In several processes the alternatives are looked for meanwhile. Raises as `laid_out` does.
    """
    from boxfit.search.alternatives import Alternatives
    from boxfit.search.elsewhere import Elsewhere

    with ExitStack() as stack:
        search.tell("searching for the best layout")
        several = search.processes > 1
        elsewhere = stack.enter_context(Elsewhere(search.processes - 1, search.watch)) if several else None
        others = Alternatives(car, module, search.watch, elsewhere)
        best = laid_out(car, module, search.watch, others.searches)

        def with_alternatives() -> Layout:
            search.tell(f"{best.count} modules; looking at alternatives")
            found = others.beside(best)
            for one in found:
                refuse_misjudged(one.alternative.layout, one.car, module)
            return replace(best, alternatives=tuple(one.alternative for one in found))

        yield best, with_alternatives


def laid_out_beside_others(car: Car, module: Module, search: Search) -> Layout:
    """The best layout with its alternatives, all judged. Raises as `laid_out` does."""
    with best_and_others(car, module, search) as (_, with_alternatives):
        return with_alternatives()


def write_layout(layout: Layout, target: Path) -> None:
    """Writes layout.json alone into the results folder. Raises InputError where that cannot be."""
    from boxfit.files.layout_json import layout_bytes
    from boxfit.files.results import whole_or_nothing

    with whole_or_nothing(target) as folder:
        (folder / "layout.json").write_bytes(layout_bytes(layout))


def refuse_unbuildable(car: Car, layout: Layout) -> None:
    """Raises InputError with every reason why a box of the layout cannot be made as its rules say."""
    from boxfit.box.notes import cannot_build
    from boxfit.files.problems import InputError, Problem

    remedy = "give the workshop's own figures under [box] in car.toml or in the bay's file"
    problems = [
        Problem(bay.name, "", reason, None, remedy)
        for bay, placed in zip(car.bays, layout.bays, strict=True)
        for reason in (cannot_build(bay.box, placed.boxes) if placed.boxes else ())
    ]
    if problems:
        raise InputError(problems)


def build(car: Car, module: Module, target: Path, search: Search) -> str:
    """The search, then every file for the workshop; returns the summary.

    Raises NothingFitsError, JudgedWrongError, or InputError where a box cannot be made or written.
    """
    from boxfit.box.assembly import assembly
    from boxfit.files.layout_json import layout_bytes
    from boxfit.files.results import whole_or_nothing
    from boxfit.judge.solids import judge_solids
    from boxfit.report.assembly_text import assembly_csv
    from boxfit.report.margin_text import margin_csv
    from boxfit.report.margins import margins
    from boxfit.report.summary import summary
    from boxfit.report.views import write_views
    from boxfit.solid.write import write_solids

    tell = search.tell
    with best_and_others(car, module, search) as (best, with_alternatives):
        refuse_unbuildable(car, best)
        with whole_or_nothing(target) as folder:
            tell("making solids")
            solids = write_solids(car, module, best, folder)
            tell("judging solids")
            findings = judge_solids(folder)
            if findings:
                raise JudgedWrongError(findings)
            tell("drawing")
            write_views(car, best, folder)
            (folder / "margins.csv").write_bytes(margin_csv(margins(car, best)).encode())
            (folder / "assembly.csv").write_bytes(assembly_csv(assembly(car, module, best)).encode())
            layout = with_alternatives()
            (folder / "layout.json").write_bytes(layout_bytes(layout))
            text = summary(car, module, layout)
            if solids.notes:
                text = "\n".join(
                    [text.rstrip("\n"), "", "For the maker", *(f"  {note}" for note in solids.notes), ""]
                )
            (folder / "summary.txt").write_text(text, encoding="utf-8")
    return text


def compared(car: Car, modules: Sequence[Module], tell: Tell) -> tuple[str, str]:
    """Every module in this car side by side: the table and the same as CSV."""
    from boxfit.report.compare import Row, compare_csv, compare_table, row_of

    rows: list[Row] = []
    for module in modules:
        tell(f"searching with {module.name}")
        try:
            rows.append(row_of(car, module, laid_out(car, module)))
        except NothingFitsError as nothing:
            rows.append(row_of(car, module, None, " ".join(nothing.reasons)))
    return compare_table(tuple(rows)), compare_csv(tuple(rows))


def limits(car: Car, module: Module, tell: Tell, watch: "Watch", processes: int) -> tuple[str, str, bool]:
    """What easing each thing that holds the layout back would bring: the page, the same as CSV, if any fits.

    What the judge does not clear is not claimed. Raises JudgedWrongError where that is the layout as it is.
    """
    from boxfit.report.limits_text import Page, limits_csv, limits_page
    from boxfit.search.easing import easings
    from boxfit.search.limits import Asked, Limit
    from boxfit.search.limits import limits as looked_at

    tell("searching for the best layout")
    layout: Layout | None = None
    reasons: tuple[str, ...] = ()
    try:
        layout = laid_out(car, module)
    except NothingFitsError as nothing:
        reasons = nothing.reasons
    names = [f"{easing.bay} {easing.what}".strip() for easing in easings(car)]
    asked = Asked(car, module, layout.count if layout and layout.target_met else 0)
    found: list[Limit] = []
    tell(f"easing {names[0]}" if names else "nothing to ease")
    for limit in looked_at(asked, watch, processes):
        found.append(_as_judged(limit, car, module))
        if len(found) < len(names):
            tell(f"easing {len(found) + 1} of {len(names)}: {names[len(found)]}")
    page = Page(car, module, layout, reasons, tuple(found))
    return limits_page(page), limits_csv(page), layout is not None


def _as_judged(limit: "Limit", car: Car, module: Module) -> "Limit":
    """The limit with only those claims that the judge clears in the car eased so."""
    from dataclasses import replace

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
