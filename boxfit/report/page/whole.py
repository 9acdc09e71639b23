"""The page of a layout: the turnable model, drawings, tables, limits and cautions in one file."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from pathlib import Path

from boxfit.box.assembly import assembly
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.report.assembly_text import assembly_lines
from boxfit.report.cautions import cautions, voltage_class
from boxfit.report.maker_notes import for_the_maker
from boxfit.report.margin_text import survey_words
from boxfit.report.margins import margins
from boxfit.report.order_of_boxes import order_lines
from boxfit.report.page.bays import bay_parts, car_labels, car_lines
from boxfit.report.page.controls import model_frame
from boxfit.report.page.filled import boxes_table, modules_table
from boxfit.report.page.html import AID, asset, links, listed, named, page, paragraph, section
from boxfit.report.page.limits import limits_table
from boxfit.report.page.lists import (
    LEFT_OVER,
    PLAY,
    ROOM,
    STRINGS,
    WHEELS,
    electrics_table,
    list_table,
    retention_tables,
)
from boxfit.report.page.packed import packed
from boxfit.report.page.pictures import inlined
from boxfit.report.page.shown import Model, Shown
from boxfit.report.projection import VIEWS
from boxfit.report.summary import how_good

PAGE = "page.html"
SCRIPTS = ("three.min.js", "things.js", "viewer.js")
WIRING = ("single-line", "strings")
"""Drawings of the electrics that a build may have put into its folder `drawings`."""

Section = tuple[str, str, tuple[str, ...]]
"""A part of the page: its name, its heading, and the pieces in it, some of which may be empty."""


@dataclass(frozen=True)
class Told:
    """A finished layout as its page tells it: what `folder` holds already, and what the maker should know."""

    car: Car
    module: Module
    layout: Layout
    folder: Path
    notes: Sequence[str] = ()


def write_page(told: Told, parts: Sequence[Shown]) -> None:
    """page.html beside the pictures and lists that it shows. Raises OSError."""
    (told.folder / PAGE).write_bytes(layout_page(told, parts).encode())


def layout_page(told: Told, parts: Sequence[Shown]) -> str:
    """The page as text; `parts` are those of the boxes, without the car's own.

    What the folder does not hold (a car that was not weighed has no weights.csv) is left out.
    """
    car, layout = told.car, told.layout
    model = Model((*bay_parts(car), *parts), tuple(car_lines(car)), tuple(car_labels(car)))
    title = f"{layout.car} with {layout.module}"
    sections = [one for one in _sections(told, model, title) if any(one[2])]
    body = (
        "<header>",
        f"<h1>{escape(title)}</h1>",
        named(key_figures(told.module, layout)),
        f'<p class="aid">{escape(AID)} <a href="#cautions">Cautions</a></p>',
        links([(name, heading) for name, heading, _ in sections]),
        "</header>",
        '<main id="content">',
        *(section(name, heading, inner) for name, heading, inner in sections),
        "</main>",
        f"<footer>{_licence()}</footer>",
        f'<script type="application/json" id="model-data">{packed(model)}</script>',
    )
    return page(f"{title}: layout", body, tuple(map(asset, SCRIPTS)))


def key_figures(module: Module, layout: Layout) -> list[tuple[str, str]]:
    """What is asked first."""
    volts = module.voltage
    empty, nominal, full = (layout.series * one for one in (volts.empty, volts.nominal, volts.full))
    boxes = sum(len(bay.boxes) for bay in layout.bays)
    filled = layout.weights.modules + layout.weights.boxes
    return [
        ("Energy", f"{layout.energy:.4g} kWh, {layout.parallel * module.capacity:.0f} Ah"),
        ("Modules", f"{layout.count}: {layout.series} in series × {layout.parallel} parallel"),
        ("Volts", f"{empty:.1f} empty, {nominal:.1f} nominal, {full:.1f} full: class {voltage_class(full)}"),
        ("Boxes", f"{boxes}, {filled:.1f} kg filled, fittings apart"),
        ("How good", how_good(layout)),
    ]


def _sections(told: Told, model: Model, title: str) -> Iterator[Section]:
    car, module, layout, folder = told.car, told.module, told.layout, told.folder
    turnable = model_frame(model, f"{title}, turnable model")
    yield "turnable", "The car's bays in three dimensions", (turnable,)
    yield "drawings", "Drawings", tuple(drawings(folder))
    yield "boxes", "Boxes and modules", (boxes_table(car, module, layout), modules_table(layout))
    yield "limits", "Limits", (limits_table(car, module, layout, folder),)
    yield "weights", "Weights", (list_table(folder, WHEELS), list_table(folder, LEFT_OVER))
    survey = listed(survey_words(margins(car, layout), car))
    yield "margins", "Room round the boxes", (survey, list_table(folder, ROOM))
    yield "fit", "Fit of the modules", (list_table(folder, PLAY),)
    yield "retention", "Holding the boxes in the car", tuple(retention_tables(folder))
    yield "electrics", "Electrics", (electrics_table(folder), list_table(folder, STRINGS))
    filling = (*order_lines(car, layout), *assembly_lines(assembly(car, module, layout)))
    yield "filling", "Filling the boxes", (listed(filling),)
    others = [f"{other.what}: {other.difference}" for other in layout.alternatives]
    notes = (
        listed(layout.notes),
        listed(others, "Alternatives"),
        listed(for_the_maker(told.notes), "For the maker"),
    )
    yield "notes", "Notes", notes
    yield "cautions", "Cautions", (listed(cautions(car, module, layout)),)


def drawings(folder: Path) -> Iterator[str]:
    """Plan, side and rear, the margins, and those of the electrics, as far as the folder has them."""
    for view in VIEWS:
        yield from _drawn(folder / f"{view.name}.svg", view.title)
    for path in sorted(folder.glob("margins*.svg")):
        yield from _drawn(path, "Margins: from every face of a box to what is nearest")
    for stem in WIRING:
        for path in sorted((folder / "drawings").glob(f"{stem}*.svg")):
            yield from _drawn(path, path.stem.replace("-", " ").capitalize())


def _drawn(path: Path, title: str) -> Iterator[str]:
    if path.is_file():
        yield inlined(path.read_text(encoding="utf-8"), path.stem, title)


def _licence() -> str:
    """Whose work shows the model, as its licence asks."""
    words = "The turnable model is shown by three.js, used under this licence:"
    return f"{paragraph(words)}\n<pre>{escape(asset('three-licence.txt'))}</pre>"
