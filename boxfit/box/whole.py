"""Every box of a layout with its parts, from which solids, flats, drawings and lists are all made."""

from boxfit.box.build import box_parts
from boxfit.box.built import BuiltBox
from boxfit.box.fixed import with_fixed
from boxfit.box.foot_needs import count_feet, foot_needs
from boxfit.box.outside.fit import NONE_CHOSEN, ChosenFeet
from boxfit.box.outside.standing import Standing
from boxfit.box.rib_clear import with_clear_ribs
from boxfit.box.stiffening import with_bars
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.retention.rules import rules_of

__all__ = ["BuiltBox", "built_boxes"]

MOST_TRIES = 8
"""Times that boxes are built anew with other feet: their sheet changes their arms, and so what they need."""


def built_boxes(car: Car, module: Module, layout: Layout) -> tuple[BuiltBox, ...]:
    """All boxes in the order of the layout. Only where `cannot_build` says nothing of any.

    Where the rules allow thicker feet or doublers, boxes are built anew until every foot has what it was
    found to need, or nothing more helps.
    """
    rules, chosen = rules_of(car), dict(NONE_CHOSEN)
    built = _built(car, module, layout, chosen)
    for _ in range(MOST_TRIES):
        more = foot_needs(rules, module, built, chosen)
        if more == chosen:
            break
        again = _built(car, module, layout, more)
        if count_feet(again) < count_feet(built):
            break  # a foot that no longer reaches its mount is worse than one that is used too far
        built, chosen = again, more
    return built


def _built(car: Car, module: Module, layout: Layout, chosen: ChosenFeet) -> tuple[BuiltBox, ...]:
    """All boxes with these feet."""
    bays = {bay.name: bay for bay in car.bays}
    places = [
        (bays[placed.name], number, box)
        for placed in layout.bays
        for number, box in enumerate(placed.boxes, start=1)
    ]
    bare = [Standing(bay, box, box_parts(bay, number, box)) for bay, number, box in places]
    fixed = with_fixed(car, module, layout, bare, chosen)
    built = tuple(
        BuiltBox(bay, number, box, with_clear_ribs(parts))
        for (bay, number, box), parts in zip(places, fixed, strict=True)
    )
    return with_bars(rules_of(car), module, built)
