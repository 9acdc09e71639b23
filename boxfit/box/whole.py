"""Every box of a layout with its parts, from which solids, flats, drawings and lists are all made."""

from dataclasses import dataclass

from boxfit.bay import Bay
from boxfit.box.build import box_parts
from boxfit.box.fixed import with_fixed
from boxfit.box.outside.standing import Standing
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
    bare = [Standing(bay, box, box_parts(bay, number, box)) for bay, number, box in places]
    fixed = with_fixed(car, module, layout, bare)
    return tuple(
        BuiltBox(bay, number, box, with_clear_ribs(parts))
        for (bay, number, box), parts in zip(places, fixed, strict=True)
    )
