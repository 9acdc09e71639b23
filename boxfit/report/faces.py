"""The faces of a box by name: every wall of a stepped box's outline is one of its own, every step a floor."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from boxfit.bay import Block, BoxRules, Point
from boxfit.layout import PlacedBox
from boxfit.report.bands import Band, bands, beyond, slab
from boxfit.report.numbering import runs
from boxfit.space.distance import FACES, Face, outwards
from boxfit.surface import Outline

Part = Literal["walls", "flange"]
WAYS: tuple[Face, ...] = ("front", "rear", "left", "right")
PARTS = {0: ("rear part", "front part"), 1: ("right part", "left part")}
"""What lies where along x and y."""
MIDDLE = "middle part"
RECESS = "in the recess"


@dataclass(frozen=True)
class BoxFace:
    """A face that looks one `way`: flat blocks side by side, or of a plain box the whole block.

    `ahead` are blocks of the box itself that a face in a recess looks at, as in the middle of a U.
    """

    name: str
    way: Face
    blocks: tuple[Block, ...]
    ahead: tuple[Block, ...] = ()


@dataclass(frozen=True)
class _Wall:
    """A straight wall in plan from `low` to `high` along the axis it runs along, at a `level` across it."""

    way: Face
    level: float
    low: float
    high: float

    def blocks(self, bottom: float, top: float, cuts: Sequence[float] = ()) -> tuple[Block, ...]:
        """The wall between two heights [mm], in pieces from cut to cut along it."""
        places = [self.low, *(cut for cut in cuts if self.low < cut < self.high), self.high]
        if outwards(self.way)[0] == 0:
            return tuple(Block((self.level, a, bottom), (self.level, b, top)) for a, b in pairwise(places))
        return tuple(Block((a, self.level, bottom), (b, self.level, top)) for a, b in pairwise(places))


def part_faces(box: PlacedBox, rules: BoxRules) -> Iterator[tuple[Part, BoxFace]]:
    """The faces of floor, walls and lid, then those of the slab of flange and lid where there is a flange.

    A stepped box names each part of the flange after the wall below it.
    """
    parts: list[tuple[Part, tuple[Band, ...]]] = [("walls", bands(box, rules))]
    if rules.flange > 0.0:
        parts.append(("flange", (slab(box, rules),)))
    for part, pieces in parts:
        if not box.is_stepped:
            yield from ((part, BoxFace(way, way, pieces[0].blocks)) for way in FACES)
        elif part == "walls":
            yield from ((part, face) for face in stepped_faces(pieces))
        else:
            yield from ((part, face) for face in _flange_faces(bands(box, rules), pieces[0]))


def _flange_faces(pieces: Sequence[Band], around: Band) -> Iterator[BoxFace]:
    """The faces of the slab, named as the walls of the topmost band; its underside beside the walls only."""
    for way in WAYS:
        walls, edges = (_named(way, outline) for outline in (pieces[-1].outline, around.outline))
        for wall, edge in zip(walls, edges, strict=True):
            flat = edge.wall.blocks(around.bottom, around.top, edge.cuts)
            own = around.blocks if edge.cuts else ()
            yield BoxFace(_full_name(wall, pieces), way, flat, own)
    yield BoxFace("top", "top", tuple(map(_upper, around.blocks)))
    ring = (corners for piece in beyond(around.outline, [pieces[-1].outline]) for corners in piece)
    low = around.bottom
    yield BoxFace("bottom", "bottom", tuple(Block((*one, low), (*other, low)) for one, other in ring))


def stepped_faces(pieces: Sequence[Band]) -> tuple[BoxFace, ...]:
    """The faces of bands on top of one another, none reaching past the one above: walls, lid, floors."""
    lid = BoxFace("top", "top", tuple(map(_upper, pieces[-1].blocks)))
    floor = BoxFace("bottom", "bottom", tuple(map(_lower, pieces[0].blocks)))
    return (*(face for way in WAYS for face in _walls(way, pieces)), lid, floor, *_steps(pieces))


def _upper(block: Block) -> Block:
    return Block((*block.low[:2], block.high[2]), block.high)


def _lower(block: Block) -> Block:
    return Block(block.low, (*block.high[:2], block.low[2]))


def _steps(pieces: Sequence[Band]) -> Iterator[BoxFace]:
    """The undersides of the steps in the floor, lowest first."""
    several = len(pieces) > 2
    for below, above in pairwise(pieces):
        parts = beyond(above.outline, [below.outline])
        centre = _centre([*below.outline])
        places = [_centre([corner for one in piece for corner in one]) for piece in parts]
        tier = f", tier {above.tiers[0]}" if several else ""
        for piece, part in zip(parts, _told_apart(places, centre), strict=True):
            flat = tuple(Block((*low, above.bottom), (*high, above.bottom)) for low, high in piece)
            yield BoxFace(f"step floor{part}{tier}", "bottom", flat)


def _told_apart(places: Sequence[Point], of: Point) -> list[str]:
    """Where each of several places lies round another: at a side, at a corner, or by number."""
    if len(places) == 1:
        return [""]
    sides = [_side(at, of) for at in places]
    corners = [f"{PARTS[0][at[0] > of[0]].removesuffix('part')}{PARTS[1][at[1] > of[1]]}" for at in places]
    found = [one if sides.count(one) == 1 else corner for one, corner in zip(sides, corners, strict=True)]
    twice = [found.count(one) > 1 for one in found]
    return [
        f", {one}{f' {number}' if doubled else ''}"
        for number, (one, doubled) in enumerate(zip(found, twice, strict=True), start=1)
    ]


def _centre(corners: Sequence[Point]) -> Point:
    """The middle of the extent of some corners."""
    (low, high), (right, left) = ((min(one), max(one)) for one in zip(*corners, strict=True))
    return ((low + high) / 2, (right + left) / 2)


def _side(at: Point, of: Point) -> str:
    """At which end or side of a place another lies."""
    axis = 0 if abs(at[0] - of[0]) >= abs(at[1] - of[1]) else 1
    return PARTS[axis][at[axis] > of[axis]]


@dataclass(frozen=True)
class _Named:
    """A wall with its name in its own outline; `cuts` are the outline's corners along one in a recess."""

    wall: _Wall
    name: str
    cuts: tuple[float, ...] = ()


def _walls(way: Face, pieces: Sequence[Band]) -> Iterator[BoxFace]:
    """The walls that look one way, those of the topmost band first."""
    own = tuple(block for band in pieces for block in band.blocks)
    told: set[_Wall] = set()
    for band in reversed(pieces):
        for one in _named(way, band.outline):
            if one.wall not in told:
                told.add(one.wall)
                with_it = _with(one.wall, pieces)
                flat = one.wall.blocks(with_it[0].bottom, with_it[-1].top, one.cuts)
                yield BoxFace(_full_name(one, pieces), way, flat, own if one.cuts else ())


def _with(wall: _Wall, pieces: Sequence[Band]) -> tuple[Band, ...]:
    """The bands that have a wall."""
    return tuple(band for band in pieces if any(one.wall == wall for one in _named(wall.way, band.outline)))


def _full_name(one: _Named, pieces: Sequence[Band]) -> str:
    """A wall's name; with its tiers unless it goes on through all of them."""
    own = _with(one.wall, pieces)
    if len(own) == len(pieces):
        return one.name
    tiers = [tier for band in own for tier in band.tiers]
    return f"{one.name}, tier{'s' if len(tiers) > 1 else ''} {runs(tiers)}"


def _named(way: Face, outline: Outline) -> tuple[_Named, ...]:
    """The walls of an outline that look one way: the outer ones along it, then those in a recess."""
    axis, sign = outwards(way)
    sides = zip(outline, outline[1:] + outline[:1], strict=True)
    walls = [
        _Wall(way, a[axis], min(a[1 - axis], b[1 - axis]), max(a[1 - axis], b[1 - axis]))
        for a, b in sides
        if a[axis] == b[axis] and (b[1 - axis] > a[1 - axis]) == (sign > 0) ^ (axis == 1)
    ]
    inner = [one for one in walls if any(_hides(other, one, sign) for other in walls)]
    outer = sorted((one for one in walls if one not in inner), key=lambda one: one.low)
    low, high = PARTS[1 - axis]
    cuts = tuple(sorted({corner[1 - axis] for corner in outline}))
    parts = ("",) if len(outer) == 1 else (f", {low}", *[f", {MIDDLE}"] * (len(outer) - 2), f", {high}")
    return (
        *(_Named(one, f"{way} wall{part}") for one, part in zip(outer, parts, strict=True)),
        *(_Named(one, f"{way} wall, {RECESS}", cuts) for one in inner),
    )


def _hides(other: _Wall, one: _Wall, sign: int) -> bool:
    """True where a wall stands before part of another that looks the same way."""
    return (other.level - one.level) * sign > 0.0 and other.low < one.high and one.low < other.high
