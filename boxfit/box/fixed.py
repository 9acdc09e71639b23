"""What is fixed to boxes: hold-downs inside, all else outside; bars give way where a cable finds no room."""

from collections.abc import Sequence
from dataclasses import replace

from boxfit.bay import Block
from boxfit.box.held import with_hold_downs
from boxfit.box.hold_yield import yielding_of
from boxfit.box.outside.fit import NONE_CHOSEN, ChosenFeet, Outside, outside_fittings, with_fittings
from boxfit.box.outside.standing import Standing
from boxfit.box.parts import BoxParts
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module


def with_fixed(
    car: Car,
    module: Module,
    layout: Layout,
    bare: Sequence[Standing],
    chosen: ChosenFeet = NONE_CHOSEN,
) -> tuple[BoxParts, ...]:
    """The parts of every box with all that is fixed to them, in the order of the boxes.

    Hold-downs come first. Only where they leave a box without a cable entry are its entries placed before
    them, so that bars end short beside these; not where a module were then held less than before. `chosen`
    is what feet were found to need beyond the usual.
    """
    held = [replace(one, parts=_held(one, module)) for one in bare]
    found = outside_fittings(car, module, layout, held, chosen)
    giving = [number for number, one in enumerate(found) if one.lacking]
    while giving:
        mixed = [
            replace(one, yielding=yielding_of(one.bay, one.box, module)) if number in giving else held[number]
            for number, one in enumerate(bare)
        ]
        again = outside_fittings(car, module, layout, mixed, chosen)
        parts = {number: _held(bare[number], module, again[number].behind) for number in giving}
        firm = [
            number
            for number in giving
            if _is_better(again[number], found[number], parts[number], held[number].parts)
        ]
        if firm == giving:
            whole = [parts.get(number, one.parts) for number, one in enumerate(held)]
            return _together(whole, again)
        giving = firm
    return _together([one.parts for one in held], found)


def _held(one: Standing, module: Module, taken: tuple[Block, ...] = ()) -> BoxParts:
    return with_hold_downs(one.parts, one.bay, one.box, module, taken)


def _is_better(again: Outside, before: Outside, parts: BoxParts, held: BoxParts) -> bool:
    """Whether more cables have their entry, and nothing more is told of what is not held."""
    holds_all = set(parts.fittings.notes) <= set(held.fittings.notes)
    return len(again.lacking) < len(before.lacking) and holds_all


def _together(parts: Sequence[BoxParts], found: Sequence[Outside]) -> tuple[BoxParts, ...]:
    return tuple(with_fittings(one, outside.fittings) for one, outside in zip(parts, found, strict=True))
