"""Boxes in their bays: true distances from walls, floor, top and keep-outs, and between boxes."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from itertools import combinations

from boxfit.bay import Bay, Block, Keepout, Prism, Shell, Solid, Surface
from boxfit.judge.claim import ClaimedBox
from boxfit.judge.cylinder import cylinder_distance
from boxfit.judge.distance import Cuboid, Measure, block_distance, inside_distance, least_shortfall
from boxfit.judge.finding import Finding
from boxfit.judge.inside import room_distance, solids_distance
from boxfit.judge.shape import bands, rim
from boxfit.judge.surface import surface_distance

PLAN = (0, 1)
SURVEYED = "the surveyed surface"
"""What findings call the triangles of a bay."""


@dataclass(frozen=True)
class SetBox:
    """A box in its place: the body, and the slab of flange and lid that stands out around its rim.

    `pieces` and `rim` are the cuboids that make up body and slab of a stepped box; none where body and slab
    are cuboids themselves.
    """

    place: str
    bay: Bay
    body: Cuboid
    slab: Cuboid
    pieces: tuple[Cuboid, ...] = ()
    rim: tuple[Cuboid, ...] = ()

    @property
    def bodies(self) -> tuple[Cuboid, ...]:
        """What floor, walls and lid enclose."""
        return self.pieces or (self.body,)

    @property
    def slabs(self) -> tuple[Cuboid, ...]:
        """What stands out around the rim; nothing where there is no flange."""
        return (self.rim or (self.slab,)) if self.bay.box.flange > 0.0 else ()

    @property
    def parts(self) -> tuple[Cuboid, ...]:
        """All of the box but its stiffening bars."""
        return self.bodies + self.slabs

    @property
    def barred(self) -> tuple[Cuboid, ...]:
        """The bodies with what the rules keep for stiffening bars beside and below them."""
        rules = self.bay.box
        if rules.process == "printed":
            return self.bodies
        out, own = rules.stiffening_depth, rules.stiffening_floor_depth
        down = out if own is None else own
        return tuple(
            Cuboid(
                (one.low[0] - out, one.low[1] - out, one.low[2] - down),
                (one.high[0] + out, one.high[1] + out, one.high[2]),
            )
            for one in self.bodies
        )

    @property
    def taken(self) -> tuple[Cuboid, ...]:
        """All that the box takes of its bay, stiffening bars and all."""
        return self.barred + self.slabs


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
    under = top - rules.rim_below_top - rules.thickness
    slab = Cuboid(
        (x - rules.flange, y - rules.flange, under), (ahead + rules.flange, left + rules.flange, top)
    )
    if not claimed.outlines:
        return SetBox(place, bay, body, slab)
    levels = bands(claimed, rules)
    pieces = tuple(piece for band in levels for piece in band.pieces)
    return SetBox(place, bay, body, slab, pieces, rim(levels[-1], rules))


def solid_measure(solid: Solid, reach: float) -> Measure:
    """How far a block is from a keep-out's solid; from a surface beyond `reach` [mm], endlessly far."""
    if isinstance(solid, Block):
        fixed = Cuboid(solid.low, solid.high)
        return lambda block: block_distance(block, fixed)
    if isinstance(solid, Surface):
        return partial(solids_distance, surface=solid, reach=reach)
    bar = solid
    return lambda block: cylinder_distance(block, bar).lower


def keepout_obstacle(keepout: Keepout, code: str, distance: float) -> Obstacle:
    """A keep-out to stay `distance` [mm] away from, and by as much more as its triangles may be off."""
    needed = distance + (keepout.solid.off if isinstance(keepout.solid, Surface) else 0.0)
    return Obstacle(keepout.name, code, solid_measure(keepout.solid, needed), needed)


def obstacles(bay: Bay) -> Iterator[Obstacle]:
    """Walls, floor, top and keep-outs of a bay."""
    if isinstance(bay.room, Prism):
        yield from _of_prism(bay.room, bay.distance)
    else:
        yield from _of_shell(bay.room, bay.distance)
    for keepout in bay.keepouts:
        yield keepout_obstacle(keepout, "keepout-clearance", keepout.distance)


def _of_prism(room: Prism, distance: float) -> Iterator[Obstacle]:
    """Walls, floor and top between which a box keeps its distance [mm]."""

    def from_walls(block: Cuboid) -> float:
        return inside_distance(block.across(PLAN), room.outline)

    yield Obstacle("walls", "bay-clearance", from_walls, distance)
    yield Obstacle("floor", "bay-clearance", lambda block: block.low[2] - room.floor, distance)
    yield Obstacle("top", "bay-clearance", lambda block: room.top - block.high[2], distance)


def _of_shell(room: Shell, distance: float) -> Iterator[Obstacle]:
    """The surface a box is within, or the metal it stays off and the end of the room besides."""
    needed = distance + room.surface.off
    measure = room_distance if room.reads == "room" else surface_distance
    yield Obstacle(SURVEYED, "bay-clearance", partial(measure, surface=room.surface, reach=needed), needed)
    if room.reads == "body":
        yield Obstacle(
            "the end of the room", "bay-clearance", lambda block: depth_inside(block, room), distance
        )


def depth_inside(block: Cuboid, room: Shell) -> float:
    """How far [mm] a block stays within the ends of the room, less than 0 where it does not."""
    to_low = (inner - outer for inner, outer in zip(block.low, room.low, strict=True))
    to_high = (outer - inner for inner, outer in zip(block.high, room.high, strict=True))
    return min(*to_low, *to_high)


def judge_place(box: SetBox) -> list[Finding]:
    """Body and flange keep their distance; a flange too near is told where the body is not."""
    findings = []
    for obstacle in obstacles(box.bay):
        for code, parts in ((obstacle.code, box.barred), ("flange", box.slabs)):
            figure = least_shortfall(parts, obstacle.measure, obstacle.needed)
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
        figure = parts_apart(one.taken, other.taken, needed)
        if figure is not None:
            text = f"{figure:.3f} mm apart, {needed:g} mm needed"
            findings.append(Finding("box-clearance", f"{one.place} and {other.place}", text, figure))
    return findings


def parts_apart(some: tuple[Cuboid, ...], others: tuple[Cuboid, ...], needed: float) -> float | None:
    """The least distance [mm] between two boxes where it is less than `needed` [mm] or they meet."""
    short = (least_shortfall(some, partial(block_distance, other), needed) for other in others)
    return min((figure for figure in short if figure is not None), default=None)
