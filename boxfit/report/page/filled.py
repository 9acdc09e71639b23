"""Boxes and modules of a layout as tables."""

from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.report.cautions import laden_mass
from boxfit.report.columns import tenths
from boxfit.report.numbering import numbered, runs
from boxfit.report.page.html import table
from boxfit.report.parts import boxes_of, flange_block
from boxfit.report.shape_words import shape_words

BOX_HEADS = (
    "box", "shape", "modules", "tiers", "outside [mm]", "over the flange [mm]", "front end x [mm]",
    "floor z [mm]", "with modules [kg]",
)  # fmt: skip
MODULE_HEADS = (
    "module",
    "box",
    "tier",
    "upright",
    "length lies",
    "x from [mm]",
    "to",
    "y from",
    "to",
    "z from",
    "to",
)
LIES = {"x": "fore and aft", "y": "across", "z": "upright"}


def boxes_table(car: Car, module: Module, layout: Layout) -> str:
    """Every box: what it holds, how large it is, where it stands, what it weighs without its fittings."""
    rows = []
    numbers = [(one.bay, one.box, one.number) for one in numbered(layout)]
    for bay in car.bays:
        for place, box in enumerate(boxes_of(layout, bay), start=1):
            held = runs(number for name, of, number in numbers if (name, of) == (bay.name, place))
            size = " × ".join(tenths(high - low) for low, high in zip(box.low, box.high, strict=True))
            rim = flange_block(box, bay.box)
            over = " × ".join(tenths(rim.high[k] - rim.low[k]) for k in (0, 1))
            shape = shape_words(box, bay.box) if box.is_stepped else "rectangular"
            rows.append(
                (
                    f"{bay.name} box {place}", shape, f"{len(box.modules)}: {held}", str(len(box.tiers)),
                    size, over, f"{box.high[0]:.0f}", f"{box.low[2]:.0f}",
                    f"{laden_mass(module, bay, box):.1f}",
                )
            )  # fmt: skip
    return table("Boxes, fittings and cover plates not weighed here", BOX_HEADS, rows)


def modules_table(layout: Layout) -> str:
    """Every module by its number in drawings and lists: where its body stands."""
    rows = []
    for one in numbered(layout):
        ends = zip(one.module.low, one.module.high, strict=True)
        rows.append(
            (
                str(one.number), f"{one.bay} box {one.box}", str(one.tier), one.module.stance.up,
                LIES[one.module.stance.length_along], *(tenths(value) for pair in ends for value in pair),
            )
        )  # fmt: skip
    return table(
        "Modules; x forward from the front axle, y left of the centre line, z up", MODULE_HEADS, rows
    )
