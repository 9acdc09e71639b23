"""What sheet a layout's boxes take, and what they and the modules cost where the files give prices."""

from boxfit.bay import Bay, BoxRules
from boxfit.car import Car
from boxfit.layout import Layout, PlacedBox
from boxfit.lid_details import cover_material, cover_plate_lacking, expects_returns
from boxfit.module import Module
from boxfit.report.parts import boxes_of
from boxfit.weight.box_mass import part_masses

NO_SHEET = ("gasket", "liner")
"""Parts of a box that are not cut from its sheet."""


def sheet_masses(car: Car, layout: Layout) -> dict[str, float]:
    """Net mass [kg] of the boxes' sheet parts by material, in the order met; offcuts are not counted.

    Tray, lid, cover plate and shelves by the closed forms that the search goes by, without what is fixed
    to them. Empty where no box is asked for.
    """
    found: dict[str, float] = {}
    for bay in car.bays:
        for box in boxes_of(layout, bay) if bay.box.asked else ():
            for material, mass in _sheet_parts(bay, box):
                found[material] = found.get(material, 0.0) + mass
    return found


def _sheet_parts(bay: Bay, box: PlacedBox) -> list[tuple[str, float]]:
    levels = tuple(tier.stands_on - box.low[2] for tier in box.tiers)
    covered, returned = cover_plate_lacking(box.high[2], bay) == 0.0, expects_returns(bay.box)
    parts = part_masses(box.outlines, box.high[2] - box.low[2], levels, bay.box, covered, returned)
    return [(_material(part.part, bay.box), part.mass) for part in parts if part.part not in NO_SHEET]


def _material(part: str, rules: BoxRules) -> str:
    return cover_material(rules) if part == "cover plate" else rules.material


def cost_of(car: Car, module: Module, layout: Layout) -> float | None:
    """Modules by their price and sheet by its price per kilogram; None where one of these is not given.

    In whatever money the prices are. Offcuts, work and everything bought beside are not counted.
    """
    prices = dict(price for bay in car.bays for price in bay.box.fold_shop.prices)
    sheets = sheet_masses(car, layout)
    if module.price is None or not set(sheets) <= set(prices):
        return None
    return layout.count * module.price + sum(mass * prices[name] for name, mass in sheets.items())
