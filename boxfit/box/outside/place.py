"""The first place on a box's walls where something fits: a hole, room behind it, room before it."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil

from boxfit.bay import Block, Point
from boxfit.box.fitting import Bought, BoughtKind, Cutout
from boxfit.box.hold_yield import Yielding
from boxfit.box.outside.around import Around, meets
from boxfit.box.outside.wall import Span, Wall, spread

STEP = 10.0
"""Places tried stand so far apart [mm], further where there would be more than MOST in a row."""
MOST = 24
FEW = 12
"""Where nothing fits, about as many places are measured for how much is missing."""
JUST_BELOW = (0.5, 1.0, 2.0, 3.0, 5.0)
"""Where room is tight below a flange, places so far below the highest [mm] are tried too."""


@dataclass(frozen=True)
class Room:
    """Room outside [mm], counted from the middle of the hole: along the wall, up, and out from the wall.

    `to` is a level in the car that it reaches up or down to, wherever the hole is. `word` is what to tell of
    it, if it is the one chosen.
    """

    along: Span
    up: Span
    out: Span
    word: str = ""
    to: float | None = None

    def on(self, wall: Wall, at: Point) -> Block:
        """The room at a place of a wall, as a block."""
        along, up = ((at[k] + span[0], at[k] + span[1]) for k, span in enumerate((self.along, self.up)))
        if self.to is not None:
            up = (min(up[0], self.to), max(up[1], self.to))
        return wall.block(along, up, self.out)


@dataclass(frozen=True)
class Wanted:
    """A thing to be placed: its hole, what it fills behind the wall and before it, what it keeps free.

    `hole` [mm] is along and up, round where `is_round`; `behind` is along, up and deep. One of the rooms in
    `keeps` has to be free, the first that is.
    """

    kind: BoughtKind
    name: str
    about: str
    mass: float
    hole: Point
    is_round: bool
    behind: tuple[float, float, float]
    body: Room
    keeps: tuple[Room, ...]


@dataclass(frozen=True)
class Site:
    """One box: its walls, what is inside [mm], what is round it, and what has been taken so far.

    `above` [mm] is the room above modules: kept for terminals, leads, and what leads these out. `holes` [mm]
    is what reaches in through the walls, to which the hold-downs that are `yielding` give way.
    """

    name: str
    walls: tuple[Wall, ...]
    inside: tuple[Block, ...]
    around: Around
    above: tuple[Block, ...] = ()
    yielding: tuple[Yielding, ...] = ()
    taken: tuple[Block, ...] = ()
    holes: tuple[Block, ...] = ()

    @property
    def stops(self) -> tuple[Block, ...]:
        """Whatever may not be met behind a wall [mm]."""
        return (*self.inside, *self.holes, *(one.kept for one in self.yielding))

    def after(self, *placed: "Placed") -> "Site":
        """The site once things stand on it."""
        blocks = tuple(block for one in placed for block in (one.bought.body, one.bought.keeps))
        holes = tuple(one.behind for one in placed)
        return replace(self, taken=self.taken + blocks).pierced(holes)

    def pierced(self, holes: Sequence[Block]) -> "Site":
        """The site once more reaches in through its walls [mm]."""
        yielding = tuple(one.beside(holes) for one in self.yielding)
        return replace(self, holes=(*self.holes, *holes), yielding=yielding)


@dataclass(frozen=True)
class Placed:
    """A thing in its place, its hole, and what it fills behind the wall."""

    bought: Bought
    cutout: Cutout
    behind: Block


@dataclass(frozen=True)
class Lacking:
    """Why a wall does not take a thing: in words, and how much is missing [mm]."""

    where: str
    what: str
    missing: float

    def __str__(self) -> str:
        return f"{self.where} wall: {self.what}, lacks {self.missing:.1f} mm"


Rank = Callable[[Wall, Point], float]
"""How good a place on a wall is; the least is best."""


def place(site: Site, wanted: Wanted, walls: Sequence[Wall], rank: Rank) -> Placed | tuple[Lacking, ...]:
    """The thing at the best free place of the first wall that has one; else what each wall lacks."""
    lacking = []
    for wall in walls:
        found = _on_wall(site, wanted, wall, rank)
        if isinstance(found, Placed):
            return found
        lacking.append(found)
    return tuple(lacking)


def high_and_middle(wall: Wall, at: Point) -> float:
    """As high as it goes, then near the middle of the wall."""
    return -1000.0 * at[1] + abs(at[0] - sum(wall.corners) / 2.0)


def low_and_middle(wall: Wall, at: Point) -> float:
    """As low as it goes, then near the middle of the wall."""
    return 1000.0 * at[1] + abs(at[0] - sum(wall.corners) / 2.0)


def near(place: Point) -> Rank:
    """As near as it goes to a place in plan [mm], high rather than low."""

    def rank(wall: Wall, at: Point) -> float:
        return abs(at[0] - place[1 - wall.axis]) - at[1] / 10.0

    return rank


def _on_wall(site: Site, wanted: Wanted, wall: Wall, rank: Rank) -> Placed | Lacking:
    flat = [span[1] - span[0] for span in (wall.along, wall.up)]
    short = max(need - have for need, have in zip(wanted.hole, flat, strict=True))
    if short > 1e-6:
        return Lacking(wall.looks, "too little of it is flat between its bends for the hole", short)
    site, behind = _near_wall(site, wall, wanted.behind[2]), []
    places = sorted(set(_places(site, wanted, wall)), key=lambda at: (round(rank(wall, at), 6), at))
    firm = [at for at in places if wall.takes(spread(at[0], wanted.hole[0]), spread(at[1], wanted.hole[1]))]
    for at in firm:
        if _is_free_behind(site, wanted, wall, at):
            behind.append(at)
            found = _before(site, wanted, wall, at)
            if found is not None:
                return found
    return _told(site, wanted, wall, (firm or places, behind))


def _near_wall(site: Site, wall: Wall, deep: float) -> Site:
    """The site with only what reaches within a depth [mm] behind a wall left inside."""
    along = (wall.corners[0], wall.corners[1])
    slab = wall.block(along, wall.levels, (-wall.thickness - deep, -wall.thickness))
    return replace(
        site,
        inside=tuple(block for block in site.inside if meets(slab, block)),
        holes=tuple(block for block in site.holes if meets(slab, block)),
        yielding=tuple(one for one in site.yielding if meets(slab, one.block)),
    )


def _places(site: Site, wanted: Wanted, wall: Wall) -> Iterator[Point]:
    """Places of the middle of a hole: even ones, its ends always among them, and those close beside things.

    `site` holds only what is near the wall.
    """
    rows = []
    for axis, span, width, behind in zip(
        (1 - wall.axis, 2), (wall.along, wall.up), wanted.hole, wanted.behind[:2], strict=True
    ):
        low, high = span[0] + width / 2.0, span[1] - width / 2.0
        spaces = min(MOST, max(1, ceil((high - low) / STEP)))
        row = [low + (high - low) * step / spaces for step in range(spaces + 1)]
        beside = (
            at
            for block in site.stops
            for at in (block.high[axis] + behind / 2.0, block.low[axis] - behind / 2.0)
        )
        rows.append(row + [at for at in beside if low < at < high])
    top = max(rows[1])
    rows[1] += [top - lower for lower in JUST_BELOW if top - lower > min(rows[1])]
    return ((along, up) for along in rows[0] for up in rows[1])


def behind_block(wanted: Wanted, wall: Wall, at: Point, deep: float) -> Block:
    """What a thing fills behind a wall, so deep from the inside of its sheet [mm]."""
    along, up = spread(at[0], wanted.behind[0]), spread(at[1], wanted.behind[1])
    return wall.block(along, up, (-wall.thickness - deep, -wall.thickness))


def _is_free_behind(site: Site, wanted: Wanted, wall: Wall, at: Point) -> bool:
    block = behind_block(wanted, wall, at, wanted.behind[2])
    return wall.has_behind(block) and not any(meets(block, other) for other in site.stops)


def _before(site: Site, wanted: Wanted, wall: Wall, at: Point) -> Placed | None:
    """The thing at a place, with the first of its rooms that is free."""
    body = wanted.body.on(wall, at)
    if not site.around.free(body, site.taken):
        return None
    for room in wanted.keeps:
        keeps = room.on(wall, at)
        if site.around.free(keeps, site.taken):
            told = replace(wanted, about=f"{wanted.about}; {room.word}" if room.word else wanted.about)
            return _placed(told, wall, at, (body, keeps))
    return None


def _placed(wanted: Wanted, wall: Wall, at: Point, blocks: tuple[Block, Block]) -> Placed:
    here = wall.point(*at)
    hole = (wanted.hole[0], (0.0, 0.0)) if wanted.is_round else (0.0, wanted.hole)
    cutout = Cutout(wanted.name, wall.looks, here, *hole, 0.0 if wanted.is_round else CORNER)
    bought = Bought(wanted.kind, wanted.name, wall.looks, here, *blocks, wanted.about, wanted.mass)
    return Placed(bought, cutout, behind_block(wanted, wall, at, wanted.behind[2]))


CORNER = 3.0
"""Radius [mm] in the corners of a rectangular hole: common practice, no source."""


def _told(site: Site, wanted: Wanted, wall: Wall, places: tuple[list[Point], list[Point]]) -> Lacking:
    """What stops a thing at every place of a wall, and how much is missing at the best of them."""
    firm, behind = places
    if not behind:
        need = wanted.behind[2]
        some = firm[:: max(1, len(firm) // FEW)]
        deep = max((_deepest(site, wanted, wall, at) for at in some), default=0.0)
        words = f"{need:g} mm are needed behind it, at most {deep:.1f} mm are free"
        return Lacking(wall.looks, words, need - deep)
    need = min(max(wanted.body.out[1], room.out[1]) for room in wanted.keeps)
    out = max(_furthest(site, wanted, wall, at, need) for at in behind[:: max(1, len(behind) // FEW)])
    if out >= need:
        return Lacking(wall.looks, "no room beside it for the cable or the hand", 1.0)
    return Lacking(wall.looks, f"{need:.0f} mm are needed outside, at most {out:.0f} mm are free", need - out)


def _deepest(site: Site, wanted: Wanted, wall: Wall, at: Point) -> float:
    """How deep [mm] a thing may reach behind a wall at a place."""
    whole = behind_block(wanted, wall, at, wanted.behind[2])
    stops = [other for other in site.stops if meets(whole, other)]
    near = [
        (wall.plane - (other.high if wall.sign > 0 else other.low)[wall.axis]) * wall.sign - wall.thickness
        for other in stops
    ]
    return max(0.0, min(near, default=wanted.behind[2]))


def _furthest(site: Site, wanted: Wanted, wall: Wall, at: Point, need: float) -> float:
    """How far out [mm] a place is free over the section of a thing's body."""
    low, high = 0.0, need
    while high - low > 1.0:
        middle = (low + high) / 2.0
        room = Room(wanted.body.along, wanted.body.up, (0.0, middle))
        low, high = (middle, high) if site.around.free(room.on(wall, at), site.taken) else (low, middle)
    return high if high >= need else low
