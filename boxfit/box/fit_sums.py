"""What may be out along a row, by the way a box is made: how often it counts, and by how much. [mm]"""

from dataclasses import dataclass
from math import radians, tan

from boxfit.box.built import BuiltBox
from boxfit.box.fit_ends import LEDGE, LINER, End


@dataclass(frozen=True)
class Contribution:
    """Something that counts `count` times, each plus or minus `each` [mm]."""

    what: str
    count: int
    each: float


def wall_sums(
    built: BuiltBox, modules: int, ends: tuple[End, End], height: float
) -> tuple[Contribution, ...]:
    """What may be out along a row of so many modules between two walls.

    `height` [mm] is from the floor of the walls to the top of the row: a folded wall leans by so much times
    the tangent of what its angle is out.
    """
    rules = built.bay.box
    allowed = rules.tolerances
    liners = sum(end.what == LINER for end in ends)
    bars = sum(end.what == LEDGE for end in ends)
    if rules.process == "printed":
        walls = [Contribution("printed wall", 2, allowed.printed)]
    elif built.parts.tray.floor_radius is not None:
        lean = height * tan(radians(allowed.fold_angle))
        walls = [Contribution("fold", 2, allowed.fold), Contribution("lean of a wall", 2, lean)]
    else:
        walls = [Contribution("weld", 2, allowed.weld), Contribution("cut of the floor", 1, allowed.cut)]
    return _real(
        Contribution("module", modules, allowed.module),
        Contribution("liner", liners, allowed.liner),
        *walls,
        Contribution("cut of a ledge's bar", bars, allowed.cut),
    )


def ceiling_sums(built: BuiltBox, number: int) -> tuple[Contribution, ...]:
    """What may be out from what the tier `number` from 0 stands on to the shelf or the lid above it.

    A shelf lies on a ledge welded to the walls; a lid lies on the rim, which a fold or a weld places.
    """
    rules, is_top = built.bay.box, number == len(built.box.tiers) - 1
    allowed = rules.tolerances
    lined = number == 0 and rules.process != "printed" and rules.liner > 0.0
    own = [Contribution("module", 1, allowed.module), Contribution("liner", int(lined), allowed.liner)]
    ledges = int(number > 0) + int(not is_top)
    if rules.process == "printed":
        return _real(*own, Contribution("printed level", 2, allowed.printed))
    rim: list[Contribution] = []
    if is_top:
        bent = built.parts.tray.floor_radius is not None
        folds = int(rules.process == "folded" and rules.flange > 0.0) + int(bent)
        rim = [
            Contribution("fold", folds, allowed.fold),
            Contribution("weld", 2 - folds, allowed.weld),
            Contribution("cut of a wall", int(folds < 2), allowed.cut),
        ]
    return _real(*own, Contribution("weld of a ledge", ledges, allowed.weld), *rim)


def _real(*found: Contribution) -> tuple[Contribution, ...]:
    """Those that count at all."""
    return tuple(one for one in found if one.count and one.each > 0.0)
