"""Irregular bays with a module each, plain box bays, and a family of bays that grows. All invented.

The irregular ones have slanted walls, inward corners, keep-outs floor to top.

Everything is in whole millimetres, so that a model on a grid of 1 mm loses nothing.
"""

from dataclasses import dataclass, replace

from boxfit.bay import Bay, Block, BoxRules, Keepout, Point, Prism
from boxfit.car import Car
from boxfit.module import Dimension, FaceRoom, Module, Voltage

RULES = BoxRules(
    material="aluminium-5754",
    process="folded",
    shape="rectangular",
    thickness=2.0,
    bend_radius=3.0,
    flange=22.0,
    lid_thickness=2.0,
    clearance=10.0,
    liner=3.0,
    gap=4.0,
    headroom=5.0,
    tiers=2,
    boxes=1,
)
TIGHT_BEND = replace(RULES, bend_radius=9.0, tiers=1)
WELDED = replace(RULES, process="welded", flange=25.0, thickness=3.0, tiers=1)
TOLERANCE = 3.0
VOLTS = Voltage(33.0, 44.0, 50.4)


@dataclass(frozen=True)
class Case:
    """A bay and the module to be counted in it."""

    bay: Bay
    module: Module

    @property
    def car(self) -> Car:
        """A car of this bay alone that asks nothing else."""
        return Car("invented", "invented", 2180.0, 1180.0, 1160.0, (self.bay,))


def _module(
    name: str, size: tuple[float, float, float], up: tuple[Dimension, ...], top: float = 0.0
) -> Module:
    return Module(name, name.lower(), *size, 10.0, 2.0, 50.0, VOLTS, up, 2.0, None, FaceRoom(top=top))


HERON = _module("Heron", (355.0, 151.0, 108.0), ("height",), 30.0)
TEAL = _module("Teal", (260.0, 110.0, 90.0), ("height", "width"))
SNIPE = _module("Snipe", (225.0, 175.0, 60.0), ("height",), 12.0)
PLOVER = _module("Plover", (310.0, 128.0, 96.0), ("height",), 20.0)


def _case(
    outline: tuple[Point, ...],
    height: float,
    module: Module,
    rules: BoxRules = RULES,
    blocks: tuple[tuple[Point, Point], ...] = (),
    clearance: float = 10.0,
) -> Case:
    """A bay of this height [mm]; `blocks` are low and high corner in plan of keep-outs from floor to top."""
    floor, top = 200.0, 200.0 + height
    keepouts = tuple(
        Keepout(f"keep-out {number}", Block((*low, floor), (*high, top)), TOLERANCE + clearance)
        for number, (low, high) in enumerate(blocks, 1)
    )
    distance = TOLERANCE + rules.clearance
    return Case(Bay("bay", Prism(outline, floor, top), TOLERANCE, distance, rules, keepouts), module)


CASES = {
    "tapered nose": _case(((-620, -340), (0, -420), (0, 420), (-620, 340)), 340, HERON),
    "cut corners": _case(
        ((-780, -300), (-700, -430), (-60, -430), (0, -330), (0, 330), (-60, 430), (-700, 430), (-780, 300)),
        330,
        HERON,
    ),
    "narrow tail": _case(((-900, -190), (-40, -300), (0, 0), (-40, 300), (-900, 190)), 200, TEAL, TIGHT_BEND),
    "skewed floor": _case(((-690, -360), (20, -310), (60, 360), (-630, 310)), 300, PLOVER),
    "wheel arch": _case(
        ((-800, -420), (0, -420), (0, 420), (-250, 420), (-340, 300), (-560, 300), (-640, 420), (-800, 420)),
        180,
        SNIPE,
        TIGHT_BEND,
    ),
    "stepped sill": _case(
        ((-850, -350), (0, -350), (0, 360), (-400, 360), (-400, 220), (-850, 180)), 330, PLOVER
    ),
    "tunnel": _case(
        ((-700, -520), (0, -520), (0, -110), (-300, -60), (-300, 60), (0, 110), (0, 520), (-700, 520)),
        180,
        PLOVER,
        WELDED,
    ),
    "post in the middle": _case(
        ((-900, -400), (0, -460), (0, 460), (-900, 400)),
        190,
        HERON,
        RULES,
        (((-250, -30), (-190, 30)),),
        15.0,
    ),
    "two posts": _case(
        ((-820, -440), (0, -400), (30, 400), (-820, 440)),
        330,
        HERON,
        RULES,
        (((-820, 200), (-640, 440)), ((-90, -400), (20, -260))),
    ),
    "column and arch": _case(
        ((-760, -380), (0, -430), (0, 430), (-420, 430), (-520, 290), (-760, 290)),
        330,
        HERON,
        RULES,
        (((-120, 220), (-60, 280)),),
        25.0,
    ),
    "wide nose": _case(((-1100, -520), (0, -600), (0, 600), (-1100, 520)), 340, HERON),
    "long sill": _case(
        ((-1300, -350), (0, -350), (0, 360), (-500, 360), (-500, 220), (-1300, 180)), 330, PLOVER
    ),
}


def box_bay(count: int, tiers: int, module: Module) -> Case:
    """A rectangular bay for about so many modules on so many tiers, with little to spare."""
    rules = replace(RULES, tiers=tiers)
    area = 1.06 * count / tiers * (module.length + module.spacing) * (module.width + module.spacing)
    lost = 2.0 * (TOLERANCE + rules.clearance + rules.flange + rules.thickness + rules.liner + rules.gap)
    length = round((1.4 * area) ** 0.5)
    tier = module.height + module.room.top + rules.headroom + rules.thickness
    height = tiers * tier + 2 * (TOLERANCE + rules.clearance) + rules.liner + rules.lid_thickness
    half = round((area / length + lost) / 2)
    return _case(
        ((-length - lost, -half), (0, -half), (0, half), (-length - lost, half)), height, module, rules
    )


BOX_BAYS = {
    f"box for {count} on {tiers}": box_bay(count, tiers, module)
    for count, tiers, module in (
        (10, 1, PLOVER), (20, 2, HERON), (40, 1, TEAL), (60, 2, SNIPE), (90, 3, PLOVER), (120, 2, TEAL)
    )
}  # fmt: skip


def growing(count: int) -> Case:
    """A tapered bay with a post in it for about so many modules on one tier: the same shape in any size."""
    length, half = 100.0 + 235.0 * count**0.5, 60.0 + 117.0 * count**0.5
    far, wide, narrow = round(length), round(half), round(0.85 * half)
    x, y = round(-0.12 * length), round(0.8 * half)
    outline = ((-far, -narrow), (0, -wide), (0, wide), (-far, narrow))
    return _case(outline, 180, PLOVER, replace(RULES, tiers=1), (((x, y), (x + 60, y + 60)),))
