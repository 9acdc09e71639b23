"""Every box of a layout with its parts, from which solids, flats, drawings and lists are all made."""

from dataclasses import dataclass

from boxfit.bay import Bay
from boxfit.box.build import box_parts
from boxfit.box.held import with_hold_downs
from boxfit.box.outside.fit import Standing, outside_fittings, with_fittings
from boxfit.box.parts import BoxParts
from boxfit.box.rib_clear import with_clear_ribs
from boxfit.car import Car
from boxfit.layout import Layout, PlacedBox
from boxfit.module import Module


@dataclass(frozen=True)
class BuiltBox:
    """A box of the layout: its bay, its number there from 1, where it stands, what it is made of."""

    bay: Bay
    number: int
    box: PlacedBox
    parts: BoxParts


def built_boxes(car: Car, module: Module, layout: Layout) -> tuple[BuiltBox, ...]:
    """All boxes in the order of the layout. Only where `cannot_build` says nothing of any."""
    bays = {bay.name: bay for bay in car.bays}
    places = [
        (bays[placed.name], number, box)
        for placed in layout.bays
        for number, box in enumerate(placed.boxes, start=1)
    ]
    standing = [Standing(bay, box, _parts(bay, number, box, module)) for bay, number, box in places]
    outside = outside_fittings(car, module, layout, standing)
    return tuple(
        BuiltBox(one.bay, number, one.box, with_clear_ribs(with_fittings(one.parts, found)))
        for (_, number, _), one, found in zip(places, standing, outside, strict=True)
    )


def _parts(bay: Bay, number: int, box: PlacedBox, module: Module) -> BoxParts:
    """What one box is made of, with what holds its modules."""
    return with_hold_downs(box_parts(bay, number, box), bay, box, module)
