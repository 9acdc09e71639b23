"""The strings of the layout as laid: which module follows which, what lies between touching ones. [mm]"""

from dataclasses import dataclass
from itertools import groupby

from boxfit.bay import Vector
from boxfit.car import Car
from boxfit.electrics.order import link_of, ordered, step_of, touching
from boxfit.electrics.terminals import terminals_at
from boxfit.layout import Layout, PlacedModule
from boxfit.module import Module

TOUCH = 5.0
"""Modules nearer to each other than this [mm], or than their spacing, count as touching (common practice)."""


@dataclass(frozen=True)
class Laid:
    """A module with its number in all lists, from 1, its bay, which box of all it stands in, from 0, and its
    tier, from 1; its terminals are `at` [mm]."""

    number: int
    bay: str
    box: int
    tier: int
    placed: PlacedModule
    at: Vector


@dataclass(frozen=True)
class PackStrings:
    """`strings` hold the numbers of modules from minus to plus; all strings begin and end at the `junction`.

    `link` [mm] is all that joins modules and the junction, square to the car, `proven` where no order has
    less. `step` is the most places by which two touching modules are apart; `steepest` are such two, none
    where no modules touch.
    """

    modules: tuple[Laid, ...]
    strings: tuple[tuple[int, ...], ...]
    junction: Vector
    link: float
    proven: bool
    step: int
    steepest: tuple[int, int] | None

    def box_of(self, number: int) -> int:
        """Which box of all a module stands in, from 0."""
        return self.modules[number - 1].box


def laid_modules(module: Module, layout: Layout) -> tuple[Laid, ...]:
    """All modules in the order in which every list numbers them."""
    found: list[Laid] = []
    box = 0
    for bay in layout.bays:
        for placed in bay.boxes:
            for tier, level in enumerate(placed.tiers, start=1):
                for one in level.modules:
                    at = terminals_at(module, one)
                    found.append(Laid(len(found) + 1, bay.name, box, tier, one, at))
            box += 1
    return tuple(found)


def pack_strings(car: Car, module: Module, layout: Layout, junction: Vector) -> PackStrings:
    """The best order there is; where strings stay in one bay, the best in each bay."""
    modules = laid_modules(module, layout)
    groups = (
        [list(alike) for _, alike in groupby(modules, key=lambda one: one.bay)]
        if car.string_in_one_bay
        else [list(modules)]
    )
    near = max(module.spacing, TOUCH)
    strings: list[tuple[int, ...]] = []
    proven = True
    for group in groups:
        found = ordered(tuple(one.at for one in group), layout.series, junction, _touching(group, near))
        strings += [tuple(group[place].number for place in string) for string in found.strings]
        proven = proven and found.proven
    pairs = _touching(modules, near)
    places = tuple(tuple(number - 1 for number in string) for string in strings)
    step = step_of(places, pairs)
    steepest = next((pair for pair in pairs if step_of(places, (pair,)) == step), None)
    return PackStrings(
        modules,
        tuple(strings),
        junction,
        link_of(places, tuple(one.at for one in modules), junction),
        proven,
        step,
        (steepest[0] + 1, steepest[1] + 1) if steepest else None,
    )


def _touching(group: list[Laid] | tuple[Laid, ...], near: float) -> tuple[tuple[int, int], ...]:
    lows = tuple(one.placed.low for one in group)
    return touching(lows, tuple(one.placed.high for one in group), near)
