"""The insulating sheets inside a box."""

from boxfit.bay import Block, BoxRules
from boxfit.box.parts import Liner, LinerSheet
from boxfit.box_details import bend_radius, wall_liner_spans
from boxfit.layout import PlacedBox
from boxfit.standards.materials import LINER


def liner_of(name: str, box: PlacedBox, rules: BoxRules) -> Liner | None:
    """Floor sheet, as far as the floor is flat, and four wall sheets per tier; None without a liner."""
    if rules.liner == 0.0:
        return None
    bottom = box.low[2]
    levels = tuple(tier.stands_on - bottom for tier in box.tiers)
    spans = wall_liner_spans(box.high[2] - rules.lid_thickness - bottom, levels, rules)
    sheets = [_floor_sheet(box, rules)]
    for tier, (low, high) in enumerate(spans, start=1):
        sheets.extend(_wall_sheets(tier, box, rules, (bottom + low, bottom + high)))
    return Liner(f"{name} liner", LINER.name, tuple(sheets))


def _floor_sheet(box: PlacedBox, rules: BoxRules) -> LinerSheet:
    """Ends where the bend begins."""
    inset, floor = rules.thickness + bend_radius(rules), box.low[2] + rules.thickness
    low = (box.low[0] + inset, box.low[1] + inset, floor)
    return LinerSheet("floor", Block(low, (box.high[0] - inset, box.high[1] - inset, floor + rules.liner)))


def _wall_sheets(tier: int, box: PlacedBox, rules: BoxRules, up: tuple[float, float]) -> list[LinerSheet]:
    """Front and rear over the whole width, left and right between them."""
    thick, liner = rules.thickness, rules.liner
    rear, right = box.low[0] + thick, box.low[1] + thick
    front, left = box.high[0] - thick, box.high[1] - thick
    plans = {
        "front": ((front - liner, right), (front, left)),
        "rear": ((rear, right), (rear + liner, left)),
        "left": ((rear + liner, left - liner), (front - liner, left)),
        "right": ((rear + liner, right), (front - liner, right + liner)),
    }
    return [
        LinerSheet(f"{wall} wall tier {tier}", Block((*low, up[0]), (*high, up[1])))
        for wall, (low, high) in plans.items()
    ]
