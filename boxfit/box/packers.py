"""Packers: what fills the gaps beside modules, so that they cannot slide."""

from collections import Counter
from collections.abc import Iterator

from boxfit.bay import BoxRules
from boxfit.box.fitting import Fastener
from boxfit.box.hold_down_place import Place
from boxfit.box_shape import grown
from boxfit.layout import PlacedBox, PlacedModule, Tier

THICK = 30.0
"""What is thicker [mm] is built up."""
LEAST = 1.0
"""What is thinner [mm] needs no packer."""
WHAT = "packer, hard foam or polyethylene sheet"


def packers(box: PlacedBox, rules: BoxRules) -> tuple[Fastener, ...]:
    """Packers of one box by size: thickness, height, length [mm]. None at faces that are kept clear."""
    sizes: Counter[tuple[float, float, float, str]] = Counter()
    for tier, outline in zip(box.tiers, box.outlines, strict=True):
        inside = grown(outline, -rules.thickness - rules.liner)
        place = Place(inside, 0.0, 0.0, ())
        for module in tier.modules:
            sizes.update(_beside(module, tier, place))
    return tuple(
        Fastener(
            WHAT if size[0] <= THICK else f"{WHAT}, built up",
            " x ".join(f"{side:.1f}".removesuffix(".0") for side in size[:3]) + " mm",
            number,
            f"{size[3]}, fitted to what is measured",
        )
        for size, number in sorted(sizes.items())
    )


def _beside(one: PlacedModule, tier: Tier, place: Place) -> Iterator[tuple[float, float, float, str]]:
    """To the walls on all sides, to the next modules on the high sides only, so that none counts twice."""
    for axis in (0, 1):
        for side in (-1, 1):
            room = (one.stance.room_high if side > 0 else one.stance.room_low)[axis]
            face = (one.high if side > 0 else one.low)[axis]
            others = [other for other in tier.modules if other is not one and _faces(one, other, axis)]
            next_to = [
                (other.low[axis] - face) if side > 0 else (face - other.high[axis])
                for other in others
                if (other.low[axis] >= face if side > 0 else other.high[axis] <= face)
            ]
            if room > 0.0 or (next_to and side < 0):
                continue
            across = (one.low[1 - axis], one.high[1 - axis])
            wall = place.wall(axis, side, face, across)
            gap = min(next_to) if next_to else abs(wall - face) if wall is not None else 0.0
            if gap >= LEAST:
                where = "between modules" if next_to else "between modules and liner"
                yield (round(gap, 1), one.stance.size[2], one.stance.size[1 - axis], where)


def _faces(one: PlacedModule, other: PlacedModule, axis: int) -> bool:
    """Whether two modules of a tier stand beside each other along an axis."""
    cross = 1 - axis
    return one.low[cross] < other.high[cross] and other.low[cross] < one.high[cross]
