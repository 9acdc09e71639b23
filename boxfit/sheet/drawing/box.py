"""The drawing of one box: closed with its parts list, then cut along."""

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from boxfit.box.bar_words import bar_places
from boxfit.box.names import file_stem
from boxfit.box.numbers import bay_letters
from boxfit.box.whole import BuiltBox
from boxfit.car import Car
from boxfit.module import Module
from boxfit.sheet.drawing.box_items import items_of
from boxfit.sheet.drawing.box_page import box_page
from boxfit.sheet.drawing.lists_page import lists_page
from boxfit.sheet.drawing.marks import Drawing
from boxfit.sheet.drawing.section_page import section_page
from boxfit.sheet.drawing.title import WELDED, Title, printed_tolerance

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

HEAVY = 25.0
"""One person lifts [kg]: common practice, no source."""


def box_drawing(
    car: Car,
    module: Module,
    built: BuiltBox,
    numbers: Mapping[str, str],
    shapes: "Mapping[str, TopoDS_Shape]",
) -> Drawing:
    """The sheets of a box: closed, cut along, and lists where there is something to list."""
    items = items_of(built, numbers, shapes)
    empty = sum(one.mass for one in items)
    full = empty + module.mass * len(built.box.modules)
    title = Title(
        title=built.parts.name,
        number=f"{bay_letters([bay.name for bay in car.bays])[built.bay.name]}{built.number}",
        kind="assembly drawing",
        scale="",
        car=car.name,
        material="see parts list",
        tolerances=printed_tolerance(built.bay.box) if built.bay.box.process == "printed" else WELDED,
        quantity="1",
        mass=f"{full:.1f} kg full",
        cautions="High voltage: live work only by qualified people, to local codes.",
    )
    notes = (*masses(built, module, empty, full), *weld_notes(built))
    lists = lists_page(built, numbers, replace(title, sheet="3 / 3", scale="none"))
    count = 3 if lists else 2
    first = box_page(built, items, replace(title, sheet=f"1 / {count}"), notes)
    cut = replace(title, sheet=f"2 / {count}", scale="as shown")
    second = section_page(built, items, cut, (section_notes(built),))
    stem = f"{file_stem(built.parts.name)}-drawing"
    return Drawing(stem, (first, second, lists) if lists else (first, second))


def masses(built: BuiltBox, module: Module, empty: float, full: float) -> tuple[str, ...]:
    """What the box weighs [kg], and how it is then lifted."""
    count = len(built.box.modules)
    lifted = ("over 25 kg: two people or lifting gear",) if full > HEAVY else ()
    return (f"empty {empty:.1f} kg; with {count} modules {module.name} {full:.1f} kg", *lifted)


def weld_notes(built: BuiltBox) -> tuple[str, ...]:
    """How the box is welded."""
    if built.bay.box.process == "printed":
        return ()
    return (
        "weld all corners of the tray tight, ISO 13920-B; the rest as weld-list.csv has it; "
        "a qualified welder decides",
        *(f"stiffening bars: {row}" for row in bar_places(built.parts)),
        "leak test before the liner goes in: water or chalk and paraffin",
    )


def section_notes(built: BuiltBox) -> tuple[str, ...]:
    """What is to be kept when the box is put together."""
    rules = built.bay.box
    gasket = ("lay the gasket in one piece, its joint on a straight",) if rules.gasket_width else ()
    printed = rules.process == "printed"
    lining = "ribs" if printed else "liner"
    words = (
        f"ribs {rules.liner:g} high all round"
        if printed
        else (f"liner {rules.liner:g} all round, no edge of metal left bare")
    )
    liner = (words,) if rules.liner else ()
    gap = (f"between {lining} and modules {rules.gap:g}; over the modules {rules.headroom:g}",)
    return (*gasket, *liner, *gap, "thin dash-dot-dot lines: modules")
