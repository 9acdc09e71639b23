"""The pack as the search weighs it: modules and boxes, without what is fixed to them."""

from boxfit.box.build import box_name
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.search.option import empty_box, middle_of
from boxfit.weight.balance import moments
from boxfit.weight.pack import Pack
from boxfit.weight.scales import Item


def searched_pack(car: Car, module: Module, layout: Layout) -> Pack:
    """Each box of the layout with its modules [kg, mm], by the closed forms that the search goes by."""
    bays = {bay.name: bay for bay in car.bays}
    found: list[Item] = []
    for placed in layout.bays:
        for number, box in enumerate(placed.boxes, start=1):
            empty = empty_box(bays[placed.name], box)
            x, y, z = (low + part for low, part in zip(box.low, empty.centre, strict=True))
            filled = [(module.mass, middle_of(one.low, one.high)) for one in box.modules]
            whole = moments([(empty.mass, (x, y, z)), *filled])
            at = (whole.x / whole.mass, whole.y / whole.mass, whole.z / whole.mass)
            found.append(Item(box_name(placed.name, number), whole.mass, at))
    return Pack(tuple(found), every_part=False)
