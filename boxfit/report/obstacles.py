"""What stays round a box: walls, floor and top of its room, what is in it, and the other boxes of the bay."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache, partial

from boxfit.bay import Bay, Block, BoxRules, Cylinder, Keepout, Prism, Shell, Surface
from boxfit.box_shape import grown
from boxfit.layout import PlacedBox
from boxfit.report.bands import Band, bands, slab
from boxfit.report.room import kept, kept_from
from boxfit.report.ways import middle, way_to_bar, way_to_block, way_to_level, way_to_side
from boxfit.space.distance import FACES, Face, face_of, is_inside, outwards, side_distance, solid_distance
from boxfit.space.free import edges_of
from boxfit.space.inside import is_room, is_solid
from boxfit.space.near import Gap, ahead, nearest

MOVED = 0.1
NEARER = 0.01
"""Moved out by `MOVED` of the distance, a face is nearer by `NEARER` of it or more to what it looks at.

That is so where the shortest way leads out of the face's plane by some 9 degrees. The shortest way from a box
to anything leads out of one of its faces by 35 degrees at least, as the diagonal of a cube does. A face that
looks at nothing, down a long wedge, answers for what it comes nearer to soonest.
"""

SMALL = 1e-6
"""Rounding: [mm], and shares of a way."""


@dataclass(frozen=True)
class Met:
    """An obstacle and how a face meets it: the distance [mm], and how much of it is `kept` on moving out."""

    name: str
    asked: float
    distance: float
    kept: float
    way: Callable[[], Gap]


@dataclass(frozen=True)
class Simple:
    """An obstacle without hollows, by its distance [mm] from a block, the shortest way there, and `asked`."""

    name: str
    asked: float
    measure: Callable[[Block], float]
    way: Callable[[Block], Gap]

    def met(self, block: Block, face: Face) -> Met:
        """How the face of a block meets it."""
        flat = face_of(block, face)
        distance = self.measure(flat)
        moved = self.measure(face_of(block, face, MOVED * distance))
        share = moved / distance if distance > 0.0 else 0.0
        return Met(self.name, self.asked, distance, share, partial(self.way, flat))


@dataclass(frozen=True)
class Rough:
    """An obstacle of triangles; without a name it is wall, floor or top, by the face that looks at it."""

    name: str
    asked: float
    surface: Surface

    def met(self, block: Block, face: Face) -> Met | None:
        """How the face of a block meets what it looks at; None where that is nothing."""
        gap = ahead(face_of(block, face), *outwards(face), self.surface)
        whole = _nearest(block, self.surface)
        if _leads_out(whole, face) and (gap is None or whole.distance < gap.distance):
            gap = whole
        if gap is None:
            return None
        return Met(self.name or bound(face), self.asked, gap.distance, 1.0 - MOVED, lambda: gap)


Obstacle = Simple | Rough


@lru_cache(maxsize=8)
def _nearest(block: Block, surface: Surface) -> Gap:
    return nearest(block, surface)


def _leads_out(gap: Gap, face: Face) -> bool:
    """True where of all faces this is the one the way leads out of most: so the nearest of all is told."""
    shares = {one: (gap.to[axis] - gap.at[axis]) * way for one in FACES for axis, way in [outwards(one)]}
    return face == max(shares, key=lambda one: round(shares[one], 9))


def bound(face: Face) -> str:
    """What bounds the room where a face looks.

    >>> bound("bottom"), bound("rear")
    ('floor', 'wall')
    """
    return {"bottom": "floor", "top": "top"}.get(face, "wall")


def met_by(face: Face, block: Block, obstacles: tuple[Obstacle, ...]) -> tuple[Met, ...]:
    """Those of the obstacles that the face looks at; where it looks at none, what it nears soonest."""
    found = [met for obstacle in obstacles if (met := obstacle.met(block, face)) is not None]
    most = max(1.0 - NEARER, min((met.kept for met in found), default=0.0))
    return tuple(met for met in found if met.kept <= most)


def surveyed(bay: Bay, block: Block) -> tuple[Obstacle, ...]:
    """What the survey knows of, round one block: the room first, then what stays in it."""
    room = bay.room
    walls = _shell(bay, room, block) if isinstance(room, Shell) else _prism(bay, room, block)
    return (*walls, *(_keepout(keepout, block) for keepout in bay.keepouts))


def neighbours(bay: Bay, boxes: tuple[PlacedBox, ...], number: int) -> tuple[Obstacle, ...]:
    """Body and slab of every box of the bay but the one of this number, from which its clearance is kept."""
    return tuple(
        Simple(f"box {other}", bay.box.clearance, partial(solid_distance, solid=solid), _to(solid))
        for other, box in enumerate(boxes, start=1)
        if other != number
        for piece in (*_barred(box, bay.box), *((slab(box, bay.box),) if bay.box.flange > 0.0 else ()))
        for solid in piece.blocks
    )


def _barred(box: PlacedBox, rules: BoxRules) -> Iterator[Band]:
    """The walls of a box with what their stiffening bars take."""
    for band in bands(box, rules):
        outline = grown(band.outline, rules.bars_beside) if rules.bars_beside else band.outline
        yield replace(band, outline=outline, bottom=band.bottom - rules.bars_below)


def passes(met: Met, own: tuple[Block, ...]) -> bool:
    """True where the way to what is met leads through some of the box's own blocks."""
    if not own:
        return False
    way = met.way()
    return any(_crosses(way, block) for block in own)


def _crosses(way: Gap, block: Block) -> bool:
    """True where a way runs through a block or along its side.

    >>> _crosses(Gap((0.0, 1.0, 1.0), (9.0, 1.0, 1.0)), Block((2.0, 0.0, 0.0), (4.0, 2.0, 2.0)))
    True
    """
    enters, leaves = 0.0, 1.0
    for at, to, low, high in zip(way.at, way.to, block.low, block.high, strict=True):
        if abs(to - at) < SMALL:
            if not low - SMALL < at < high + SMALL:
                return False
        else:
            ends = sorted(((low - at) / (to - at), (high - at) / (to - at)))
            enters, leaves = max(enters, ends[0]), min(leaves, ends[1])
    return leaves - enters > SMALL


def _prism(bay: Bay, room: Prism, block: Block) -> Iterator[Obstacle]:
    if not is_inside(block, room.outline):
        yield _no_room(bay.distance)
    for side in edges_of(room.outline):
        yield Simple("wall", bay.distance, partial(side_distance, side=side), partial(way_to_side, side=side))
    yield from _levels(bay, room.floor, room.top)


def _levels(bay: Bay, floor: float, top: float) -> Iterator[Obstacle]:
    def above(flat: Block) -> float:
        return max(flat.low[2] - floor, 0.0)

    def below(flat: Block) -> float:
        return max(top - flat.high[2], 0.0)

    yield Simple("floor", bay.distance, above, partial(way_to_level, level=floor))
    yield Simple("top", bay.distance, below, partial(way_to_level, level=top))


def _shell(bay: Bay, shell: Shell, block: Block) -> Iterator[Obstacle]:
    """The triangles, and the block the room ends at, which they lie within."""
    asked = kept(bay)
    if shell.reads == "room" and not is_room(shell.surface, middle(block)):
        yield _no_room(asked)
    yield Rough("", asked, shell.surface)
    (x, y, _), (a, b, _) = shell.low, shell.high
    for side in edges_of(((x, y), (a, y), (a, b), (x, b))):
        yield Simple("wall", bay.distance, partial(side_distance, side=side), partial(way_to_side, side=side))
    yield from _levels(bay, shell.floor, shell.top)


def _no_room(asked: float) -> Obstacle:
    """For a block that does not lie in its room."""
    return Simple("wall", asked, lambda _: 0.0, lambda flat: Gap(middle(flat), middle(flat)))


def _keepout(keepout: Keepout, block: Block) -> Obstacle:
    solid = keepout.solid
    if isinstance(solid, Surface):
        asked = kept_from(keepout)
        if is_solid(solid, middle(block)):
            return Simple(keepout.name, asked, lambda _: 0.0, lambda flat: Gap(middle(flat), middle(flat)))
        return Rough(keepout.name, asked, solid)
    return Simple(keepout.name, keepout.distance, partial(solid_distance, solid=solid), _to(solid))


def _to(solid: Block | Cylinder) -> Callable[[Block], Gap]:
    if isinstance(solid, Block):
        return partial(way_to_block, solid=solid)
    return partial(way_to_bar, bar=solid)
