"""The search, then every file for the workshop."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.car import Car
from boxfit.jobs.electrics import write_electrics, write_judged_electrics
from boxfit.jobs.fittings import out_of_reach, write_fittings
from boxfit.jobs.going_on import Search, refuse_faulty
from boxfit.jobs.holding import holding
from boxfit.jobs.laid_out import best_and_others
from boxfit.jobs.landing import landing, origin_of
from boxfit.jobs.page import write_layout_page
from boxfit.jobs.parcels import DRAWINGS, refuse_unknown_shops, write_parcels
from boxfit.jobs.prints import write_prints
from boxfit.jobs.retention import write_retention
from boxfit.jobs.unmakeable import refuse_unmakeable
from boxfit.jobs.weights import made_pack, write_weights
from boxfit.jobs.workshop_files import write_workshop_files
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.weight.pack import Pack

if TYPE_CHECKING:
    from boxfit.box.whole import BuiltBox
    from boxfit.solid.write import SolidReport


def write_fit(built: "tuple[BuiltBox, ...]", layout: Layout, module: Module, folder: Path) -> tuple[str, ...]:
    """The play of every row inside its box as fit.csv; returns what the maker should know of it."""
    from boxfit.report.fit_text import box_fits, fit_csv, fit_notes

    fits = box_fits(built, module)
    (folder / "fit.csv").write_bytes(fit_csv(fits, layout).encode())
    return fit_notes(fits)


def write_pictures(car: Car, module: Module, layout: Layout, folder: Path) -> None:
    """The views, the margins and the order of filling, as pictures and lists."""
    from boxfit.box.assembly import assembly
    from boxfit.report.assembly_text import assembly_csv
    from boxfit.report.margin_text import margin_csv
    from boxfit.report.margins import margins
    from boxfit.report.views import write_views

    write_views(car, layout, folder)
    (folder / "margins.csv").write_bytes(margin_csv(margins(car, layout)).encode())
    (folder / "assembly.csv").write_bytes(assembly_csv(assembly(car, module, layout)).encode())


def write_summary(text: str, blocks: Sequence[str], notes: Sequence[str], folder: Path) -> str:
    """The summary with further blocks and what the maker should know as summary.txt; returns it."""
    from boxfit.report.columns import listed
    from boxfit.report.maker_notes import for_the_maker

    text = "\n".join([text.rstrip("\n"), "", *blocks, ""])
    if notes:
        text = "\n".join([text.rstrip("\n"), "", "For the maker", *listed(for_the_maker(notes)), ""])
    (folder / "summary.txt").write_text(text, encoding="utf-8")
    return text


def draw(
    car: Car,
    module: Module,
    layout: Layout,
    built: "tuple[BuiltBox, ...]",
    solids: "SolidReport",
    folder: Path,
) -> Pack | None:
    """All drawings in a folder of their own, with the weights as built; returns the pack that makes them."""
    from boxfit.report.as_built import weighed_as_built
    from boxfit.sheet.drawing.write import write_drawings

    pack = made_pack(solids.masses)
    weighed = weighed_as_built(car, layout, layout.count * module.mass, pack)
    (folder / DRAWINGS).mkdir()
    write_drawings(car, module, weighed, built, solids.shapes, folder / DRAWINGS)
    return pack


def build(car: Car, module: Module, target: Path, search: Search, shops: Sequence[str] = ()) -> str:
    """The search, then every file for the workshop; returns the summary.

    For each of `shops`, words of parcels.SHOPS, one zip holds just what that shop needs. Raises
    NothingFitsError, JudgedWrongError, or InputError where a box cannot be made or written.
    """
    from boxfit.files.layout_json import layout_bytes
    from boxfit.files.record import BUILD
    from boxfit.judge.as_built import judge_as_built
    from boxfit.judge.solids import judge_solids
    from boxfit.report.page.whole import Told
    from boxfit.report.summary import summary
    from boxfit.solid.write import write_solids

    refuse_unknown_shops(shops)
    refuse_unmakeable(car)
    tell = search.tell
    with best_and_others(car, module, search) as found:
        made = holding(car, module, found, tell)
        best, built, electrics = made.layout, made.built, made.electrics
        origin = origin_of(car, module, best)
        with landing(target, BUILD, car, module, origin) as folder:
            tell("making solids")
            write_fittings(car, module, best, built, folder)
            write_judged_electrics(electrics, best, folder)
            solids = write_solids(car, module, best, built, folder, electrics.wiring)
            tell("judging solids")
            refuse_faulty(judge_solids(folder))
            tell("drawing")
            prints = write_prints(built, module, folder)
            for_shops = write_workshop_files(built, folder, electrics)
            fit = write_fit(built, best, module, folder)
            write_pictures(car, module, best, folder)
            pack = draw(car, module, best, built, solids, folder)
            layout = found.with_alternatives()
            (folder / "layout.json").write_bytes(layout_bytes(layout))
            wiring = write_electrics(electrics, folder, folder / DRAWINGS)
            write_weights(car, pack, folder)
            refuse_faulty(judge_as_built(folder, car))
            blocks = [*write_retention(car, module, built, folder), "", *wiring]
            notes = (*out_of_reach(car, best, built), *solids.notes, *fit, *prints, *for_shops.notes)
            text = write_summary(summary(car, module, layout, pack), blocks, notes, folder)
            write_layout_page(Told(car, module, layout, folder, notes), solids)
            write_parcels(shops, f"{car.name}, boxes for {module.name}", built, for_shops, folder)
    return text
