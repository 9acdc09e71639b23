"""What a layout puts on the wheels: modules, empty boxes, and what is kept for all that is fixed to them."""

from dataclasses import replace

from boxfit.bay import Bay, Vector
from boxfit.car import Car, PointMass
from boxfit.layout import BayLayout, Layout
from boxfit.module import Module
from boxfit.search.option import empty_box, middle_of
from boxfit.weight.balance import moments, weigh
from boxfit.weight.reserve import Kept, Reserve

Loads = list[tuple[float, Vector]]
"""Masses [kg] and their centres [mm]."""


def weighed(car: Car, module: Module, found: Layout, reserve: Reserve) -> Layout:
    """The layout with its weights, and what is kept for the boxes it has, each mass at its place."""
    modules: Loads = []
    boxes: Loads = []
    fixed: list[PointMass] = []
    for place, (bay, filled) in enumerate(zip(car.bays, found.bays, strict=True)):
        own = _loads(bay, module, filled)
        modules += own[0]
        boxes += own[1]
        kept = reserve.of_bay(place)
        if filled.boxes and kept.mass:
            fixed.append(_point(bay, kept, own))
    held = (*fixed, *reserve.between)
    laden = replace(car, fitted=(*car.fitted, *held)) if held else car
    return replace(found, weights=weigh(laden, modules, boxes), reserve=held)


def _loads(bay: Bay, module: Module, filled: BayLayout) -> tuple[Loads, Loads]:
    """Modules and empty boxes of a bay."""
    loads: tuple[Loads, Loads] = ([], [])
    for box in filled.boxes:
        loads[0].extend((module.mass, middle_of(one.low, one.high)) for one in box.modules)
        empty = empty_box(bay, box)
        x, y, z = (low + part for low, part in zip(box.low, empty.centre, strict=True))
        loads[1].append((empty.mass, (x, y, z)))
    return loads


def _point(bay: Bay, kept: Kept, loads: tuple[Loads, Loads]) -> PointMass:
    """What is kept for the boxes of a bay, at its place."""
    more = kept.beside(moments([*loads[0], *loads[1]]))
    at = (more.x / more.mass, more.y / more.mass, more.z / more.mass)
    return PointMass(f"fixed to the boxes of {bay.name}", more.mass, at)
