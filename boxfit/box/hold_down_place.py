"""The room a hold-down has: walls at its ends and sides, what is in its way, and what is above it."""

from dataclasses import dataclass

from boxfit.bay import Block, BoxRules, Point, Vector
from boxfit.box_details import FIT, ledge
from boxfit.box_shape import grown, rectangle
from boxfit.layout import PlacedBox
from boxfit.surface import Outline

TOUCH = 1e-6
Span = tuple[float, float]
"""From and to [mm]."""


@dataclass(frozen=True)
class Place:
    """One tier as a hold-down finds it.

    `inside` [mm] is the inside of the walls in plan; bars end below `ceiling`, what is fixed to the walls
    below `walls_end` [mm], and neither enters any of `taken`.
    """

    inside: Outline
    ceiling: float
    walls_end: float
    taken: tuple[Block, ...]

    def wall(self, across: int, side: int, start: float, span: Span) -> float | None:
        """Where the nearest wall across an axis stands, seen from `start` [mm]; None where there is not one.

        `span` [mm] is how much of it, along the other axis, must be straight.
        """
        found: list[tuple[float, Span]] = []
        for one, other in zip(self.inside, self.inside[1:] + self.inside[:1], strict=True):
            low, high = sorted((one[1 - across], other[1 - across]))
            ahead = (one[across] - start) * side
            if one[across] == other[across] and ahead > -TOUCH and low < span[1] and high > span[0]:
                found.append((ahead, (low, high)))
        if not found:
            return None
        ahead, (low, high) = min(found)
        whole = low <= span[0] + TOUCH and high >= span[1] - TOUCH
        return start + side * ahead if whole else None

    def is_free(self, block: Block) -> bool:
        """Whether a block lies inside the walls, under the ceiling, and clear of all that is taken."""
        if block.high[2] > self.ceiling + TOUCH or not _within(block, self.inside):
            return False
        return not any(meets(block, other) for other in self.taken)


def meets(one: Block, other: Block) -> bool:
    """Whether two blocks share more than a face.

    >>> meets(Block((0, 0, 0), (2, 2, 2)), Block((2, 0, 0), (4, 2, 2)))
    False
    """
    pairs = zip(one.low, one.high, other.low, other.high, strict=True)
    return all(low < far - TOUCH and near < high - TOUCH for low, high, near, far in pairs)


def _within(block: Block, inside: Outline) -> bool:
    """Whether a block's plan lies inside an outline with sides square to the car: no side crosses it."""
    middle = ((block.low[0] + block.high[0]) / 2.0, (block.low[1] + block.high[1]) / 2.0)
    sides = list(zip(inside, inside[1:] + inside[:1], strict=True))
    crossed = sum((a[1] > middle[1]) != (b[1] > middle[1]) and a[0] > middle[0] for a, b in sides)
    return crossed % 2 == 1 and not any(_crosses(block, a, b) for a, b in sides)


def _crosses(block: Block, one: Point, other: Point) -> bool:
    """Whether a side of an outline runs through the inside of a block's plan."""
    return all(
        min(one[axis], other[axis]) < block.high[axis] - TOUCH
        and max(one[axis], other[axis]) > block.low[axis] + TOUCH
        for axis in (0, 1)
    )


def block_of(across: int, low: Vector, high: Vector) -> Block:
    """A block whose corners are given as across, along and up [mm]."""
    return Block(placed(across, low), placed(across, high))


def placed(across: int, point: Vector) -> Vector:
    """A point given as across, along and up, in the car [mm].

    >>> placed(1, (1.0, 2.0, 3.0))
    (2.0, 1.0, 3.0)
    """
    return point if across == 0 else (point[1], point[0], point[2])


def place_of(box: PlacedBox, rules: BoxRules, tier: int, kept: tuple[Block, ...]) -> Place:
    """The tier numbered from 0, `kept` [mm] being what its modules keep free."""
    thick = rules.thickness
    outline = box.outlines[tier] if box.is_stepped else rectangle(box.low[:2], box.high[:2])
    if tier + 1 < len(box.tiers):
        bar = ledge(rules)
        ceiling = box.tiers[tier + 1].stands_on - thick - (bar.height if bar else 0.0) - FIT
        walls_end = ceiling
    else:
        ceiling = box.high[2] - rules.lid_thickness - FIT
        bend = rules.bend_radius + thick if rules.process == "folded" and rules.flange else 0.0
        walls_end = min(ceiling, box.high[2] - rules.rim_below_top - bend)
    return Place(grown(outline, -thick), ceiling, walls_end, kept)
