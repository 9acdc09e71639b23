"""The papers for an inspector, from what build wrote, or built anew where nothing there belongs."""

import json
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.car import Car
from boxfit.jobs.build import build
from boxfit.jobs.going_on import Search, Tell
from boxfit.jobs.landing import landing, origin_of
from boxfit.layout import Layout
from boxfit.module import Module

if TYPE_CHECKING:
    from boxfit.papers.case import Case

PAPERS = "papers.pdf"


def papers(car: Car, module: Module, target: Path, search: Search) -> str:
    """Writes papers.pdf beside the results of build, whole or not at all; returns what to know of it.

    Raises as `build` does, and InputError where the file cannot be put there.
    """
    from boxfit.files.record import PAPERS as COMMAND
    from boxfit.papers.said import said
    from boxfit.papers.whole import papers as drawn
    from boxfit.sheet.drawing.pdf import pdf_of

    layout, how = _result(car, module, target, search)
    case = case_of(car, module, layout, search.tell)
    drawing = drawn(case, search.tell)
    with landing(target, COMMAND, car, module, origin_of(car, module, layout)) as folder:
        (folder / PAPERS).write_bytes(pdf_of(drawing))
    return said(case, len(drawing.pages), how)


def _result(car: Car, module: Module, target: Path, search: Search) -> tuple[Layout, str]:
    """The layout that build wrote there, built anew where it does not belong; and how it was come by."""
    from boxfit.files.made_from import why_not_from

    reason = why_not_from(target, car, module)
    layout = None if reason else _written(car, module, target)
    if layout is not None:
        return layout, f"from the results of boxfit build in {target}"
    reason = reason or "layout.json there is not what build wrote"
    search.tell(f"building anew: {reason}")
    build(car, module, target, search)
    layout = _written(car, module, target)
    assert layout is not None  # build has judged and written it
    return layout, f"built anew into {target}: {reason}"


def _written(car: Car, module: Module, folder: Path) -> Layout | None:
    """The layout of layout.json; None where it is not there, damaged, or the judge finds fault with it."""
    from boxfit.files.layout_back import layout_from_data
    from boxfit.judge.layout import judge_layout

    try:
        data = json.loads((folder / "layout.json").read_bytes())
        layout = layout_from_data(data, car, module)
    except (OSError, ValueError):
        return None
    return None if judge_layout(data, car, module) else layout


def case_of(car: Car, module: Module, layout: Layout, tell: Tell) -> "Case":
    """Boxes built, wired, weighed by their solids, and checked."""
    from boxfit.box.retention.whole import retention_of
    from boxfit.box.searched_pack import searched_pack
    from boxfit.box.whole import built_boxes
    from boxfit.box.wiring.figures import electrics_of
    from boxfit.jobs.weights import made_pack
    from boxfit.papers.case import Case
    from boxfit.retention.rules import rules_of
    from boxfit.solid.cable import cable_group
    from boxfit.solid.made import made_boxes
    from boxfit.solid.weighed import weighed_car
    from boxfit.solid.write import placed_shape

    tell("making solids")
    built = built_boxes(car, module, layout)
    made = made_boxes(car, module, layout, built)
    tell("laying cables")
    electrics = electrics_of(car, module, layout, built)
    links = cable_group(electrics.wiring)
    weights = [cable.mass for cable, _ in electrics.wiring.routed]
    cables = tuple(zip(links.bodies if links else (), weights, strict=True))
    pack = made_pack(weighed_car(car, module, made, cables))
    assert pack is not None  # a layout has a module at least
    return Case(
        car=car,
        module=module,
        layout=layout,
        built=built,
        pack=pack,
        searched=searched_pack(car, module, layout),
        retention=retention_of(rules_of(car), module, built),
        electrics=electrics,
        shapes={part.body.name: placed_shape(part.body) for box in made for part in box.parts},
    )
