"""Boxes in their bays: true distances from walls, floor, top and keep-outs, and between boxes."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from itertools import combinations, product

from boxfit.bay import Bay, Block, Cylinder
from boxfit.judge.claim import ClaimedBox
from boxfit.judge.cylinder import cylinder_distance
from boxfit.judge.distance import Cuboid, Measure, block_distance, inside_distance, shortfall
from boxfit.judge.finding import Finding

PLAN = (0, 1)


@dataclass(frozen=True)
class SetBox:
    """A box in its place: the body, and the slab of flange and lid that stands out around its rim."""

    place: str
    bay: Bay
    body: Cuboid
    slab: Cuboid

    @property
    def parts(self) -> tuple[Cuboid, ...]:
        """Body and slab; the body alone where there is no flange."""
        return (self.body, self.slab) if self.bay.box.flange > 0.0 else (self.body,)


@dataclass(frozen=True)
class Obstacle:
    """Something a box keeps `needed` [mm] from, with the code that tells of a body too near."""

    name: str
    code: str
    measure: Measure
    needed: float


def set_box(place: str, bay: Bay, claimed: ClaimedBox) -> SetBox:
    """The claimed box, with its flange and lid as the rules of the bay make them."""
    body = Cuboid(claimed.outside.low, claimed.outside.high)
    rules = bay.box
    (x, y, _), (ahead, left, top) = body.low, body.high
    under = top - rules.lid_thickness - rules.thickness
    slab = Cuboid(
        (x - rules.flange, y - rules.flange, under), (ahead + rules.flange, left + rules.flange, top)
    )
    return SetBox(place, bay, body, slab)


def solid_measure(solid: Block | Cylinder) -> Measure:
    """How far a block is from a keep-out's solid."""
    if isinstance(solid, Block):
        fixed = Cuboid(solid.low, solid.high)
        return lambda block: block_distance(block, fixed)
    bar = solid
    return lambda block: cylinder_distance(block, bar).lower


def obstacles(bay: Bay) -> Iterator[Obstacle]:
    """Walls, floor, top and keep-outs of a bay."""
    room = bay.room

    def from_walls(block: Cuboid) -> float:
        return inside_distance(block.across(PLAN), room.outline)

    yield Obstacle("walls", "bay-clearance", from_walls, bay.distance)
    yield Obstacle("floor", "bay-clearance", lambda block: block.low[2] - room.floor, bay.distance)
    yield Obstacle("top", "bay-clearance", lambda block: room.top - block.high[2], bay.distance)
    for keepout in bay.keepouts:
        yield Obstacle(keepout.name, "keepout-clearance", solid_measure(keepout.solid), keepout.distance)


def judge_place(box: SetBox) -> list[Finding]:
    """Body and flange keep their distance; a flange too near is told where the body is not."""
    findings = []
    for obstacle in obstacles(box.bay):
        codes = (obstacle.code, "flange")
        for code, part in zip(codes, box.parts, strict=False):
            figure = shortfall(part, obstacle.measure, obstacle.needed)
            if figure is not None:
                text = f"{figure:.3f} mm from {obstacle.name}, {obstacle.needed:g} mm needed"
                findings.append(Finding(code, box.place, text, figure))
                break
    return findings


def judge_apart(boxes: list[SetBox]) -> list[Finding]:
    """Boxes of one bay keep their clearance, boxes of different bays do not meet."""
    findings = []
    for one, other in combinations(boxes, 2):
        needed = one.bay.box.clearance if one.bay is other.bay else 0.0
        pairs = product(one.parts, other.parts)
        short = [shortfall(a, partial(block_distance, b), needed) for a, b in pairs]
        figures = [figure for figure in short if figure is not None]
        if figures:
            text = f"{min(figures):.3f} mm apart, {needed:g} mm needed"
            findings.append(Finding("box-clearance", f"{one.place} and {other.place}", text, min(figures)))
    return findings
