"""Feet: angles and troughs from the walls of a box to the places of the body that it may be bolted to."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from boxfit.bay import Bay, Block, BoxRules, Mount, Vector
from boxfit.box.fitting import DIRECTIONS, Cutout, Fastener, Looks, Strip, StripHole
from boxfit.box.outside.around import Around, meets
from boxfit.box.outside.place import Site
from boxfit.box.outside.wall import Span, Wall
from boxfit.box.strip_legs import strip_blocks
from boxfit.standards.bending import least_inside_radius
from boxfit.standards.holes import clearance_hole

REACH = 150.0
"""The longest leg of a foot from its hole, and the widest gap it bridges [mm]: common practice, no source."""
WIDTH = 60.0
"""Width of a foot [mm]: common practice, no source."""
ON_WALL = 45.0
"""What of a foot lies flat on the wall beyond its bend [mm], for welds or screws: common practice, no "
"source."""
ALUMINIUM_FOOT, STEEL_FOOT = 4.0, 3.0
"""Sheet of a foot [mm]: common practice, no source."""
PLATE, PLATE_THICKNESS, THIN = 60.0, 2.0, 2.0
"""Load-spreading plate behind body sheet thinner than THIN, its side and thickness [mm]: common practice."""
HEAD = 1.25
"""Half a large washer, in threads: M8 lies on 20 mm (common practice, no source)."""
WALL_SCREW, SCREWS_APART, HEAD_BEHIND = 6.0, 30.0, 5.0
"""Where a foot cannot be welded: button-head screws M6 through the wall from inside, so far apart [mm]; head
and large washer behind the wall [mm]: ISO 7380 and ISO 7093, from memory."""
FROM_SCREW = 12.0
"""From the end of a foot to its wall screws [mm]."""
BELOW_FLANGE = 8.0
"""What stays free below a flange for rivet-nuts [mm]."""
BRACKET_ROOM = 0.5
"""What the legs keep from the bay's walls [mm], but for the surface they are bolted to."""
OPPOSITE: dict[Looks, Looks] = {
    "front": "rear",
    "rear": "front",
    "left": "right",
    "right": "left",
    "up": "down",
    "down": "up",
}
PLUS: tuple[Looks, Looks, Looks] = ("front", "left", "up")


@dataclass(frozen=True)
class Foot:
    """A foot of the box with this place among those of its bay; `notes` tell of welds and holes drilled."""

    mount: Mount
    box: int
    strips: tuple[Strip, ...]
    cutouts: tuple[Cutout, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True)
class OutOfReach:
    """A mount that no foot reaches: what is in the way, and what would help."""

    mount: Mount
    reason: str
    remedy: str


@dataclass(frozen=True)
class _Try:
    """A foot as it might be: its strip, the leg on the wall, and how far it bridges [mm]."""

    strip: Strip
    wall: Wall
    far: float


def feet_of(bay: Bay, sites: Sequence[Site]) -> tuple[Foot | OutOfReach, ...]:
    """One foot for each mount of a bay, to the box nearest to it that it can reach; in the mounts' order."""
    taken: list[Block] = []
    found: list[Foot | OutOfReach] = []
    for mount in bay.mounts:
        foot = _foot(bay, sites, mount, taken)
        if isinstance(foot, Foot):
            taken += [block for strip in foot.strips for block in strip_blocks(strip)]
        found.append(foot)
    return tuple(found)


def _foot(bay: Bay, sites: Sequence[Site], mount: Mount, taken: Sequence[Block]) -> Foot | OutOfReach:
    tries = [
        (one.far, number, one)
        for number, site in enumerate(sites)
        for wall in site.walls
        for one in _tries(bay.box, mount, wall)
    ]
    reasons = []
    for _, number, one in sorted(tries, key=lambda each: (round(each[0], 6), each[1])):
        made = _checked(bay.box, sites[number], mount, one, taken)
        if isinstance(made, str):
            reasons.append(made)
            continue
        strips, cutouts, word = made
        notes = (f"{sites[number].name}: {word}", *_drilled(mount))
        return Foot(mount, number, (*strips, *_spreading(mount)), cutouts, notes)
    if reasons:
        remedy = "move the mount along the wall, or choose another place of the body"
        return OutOfReach(mount, f"a foot to it {reasons[0]}", remedy)
    remedy = (
        f"give a place that a wall of a box stands over or beside, {REACH:g} mm away at most, or weld a "
        "bracket "
        "to the body there"
    )
    return OutOfReach(
        mount, f"no wall of a box is within {REACH:g} mm in a way that a folded foot can bridge", remedy
    )


def _tries(rules: BoxRules, mount: Mount, wall: Wall) -> Iterator[_Try]:
    """Angles where the wall stands square to the body's surface there, troughs where they face each other."""
    looks = DIRECTIONS[mount.faces]
    axis = next(k for k in range(3) if looks[k])
    sign = 1 if looks[axis] > 0 else -1
    if axis != wall.axis:
        yield from _angle(rules, mount, wall, (axis, sign))
    elif sign == -wall.sign:
        yield from _trough(rules, mount, wall)


def foot_sheet(rules: BoxRules) -> tuple[str, float, float]:
    """Material, thickness and inside radius [mm] of feet: the box's own metal, steel for a printed box.

    >>> from boxfit.standards.common_practice import USUAL_BOX
    >>> foot_sheet(USUAL_BOX)[:2]
    ('aluminium-5754', 4.0)
    """
    material = "steel-s235" if rules.process == "printed" else rules.material
    thick = ALUMINIUM_FOOT if material.startswith("aluminium") else STEEL_FOOT
    least = least_inside_radius(material, thick)
    return material, thick, max(thick, least.radius if least else 2.0 * thick)


def _extent(wall: Wall, axis: int) -> Span:
    """Where along an axis a foot may lie on a wall [mm]."""
    if axis < 2:
        return wall.corners
    return (wall.levels[0] + 2.0 * wall.thickness, wall.levels[1] - wall.thickness - BELOW_FLANGE)


def _edge(mount: Mount) -> float:
    """From the middle of a hole to the end of its leg [mm]."""
    return HEAD * mount.bolt + 5.0


def _off_bend(mount: Mount, thick: float, radius: float) -> float:
    """From the outside of the other leg to the middle of the bolt [mm]: washer and hole clear of the bend."""
    return max(thick + radius + HEAD * mount.bolt, 3.0 * thick + radius + clearance_hole(mount.bolt) / 2.0)


def _angle(rules: BoxRules, mount: Mount, wall: Wall, facing: tuple[int, int]) -> Iterator[_Try]:
    """One leg on the body, from beyond the hole to the wall; the other along the wall."""
    material, thick, radius = foot_sheet(rules)
    axis, sign = facing
    fold = next(k for k in range(3) if k not in (axis, wall.axis))
    beyond = (mount.at[wall.axis] - wall.plane) * wall.sign
    span, along = _extent(wall, axis), _extent(wall, fold)
    entry = span[0] if sign > 0 else span[1]
    gap = (entry - mount.at[axis]) * sign
    start_on_wall = max(gap, thick + radius)
    length = start_on_wall + ON_WALL
    end = mount.at[axis] + sign * length
    low = mount.at[fold] - WIDTH / 2.0
    if not (_off_bend(mount, thick, radius) <= beyond <= REACH and gap <= REACH):
        return
    if not (span[0] <= end <= span[1] and along[0] <= low and low + WIDTH <= along[1]):
        return
    corner = list(mount.at)
    corner[wall.axis] = mount.at[wall.axis] + wall.sign * _edge(mount)
    corner[fold] = low
    towards = OPPOSITE[wall.looks]
    first = beyond + _edge(mount)
    hole = StripHole(0, WIDTH / 2.0, _edge(mount), clearance_hole(mount.bolt))
    legs: tuple[tuple[Looks, float], ...] = ((towards, first), (mount.faces, length))
    yield _Try(
        _strip(mount, (material, thick, radius), (_vector(corner), PLUS[fold]), legs, hole),
        wall,
        beyond + max(gap, 0.0),
    )


def _trough(rules: BoxRules, mount: Mount, wall: Wall) -> Iterator[_Try]:
    """One leg on the body, one across the gap, one on the wall; open upwards, else downwards."""
    material, thick, radius = foot_sheet(rules)
    gap = (mount.at[wall.axis] - wall.plane) * wall.sign
    across, span = 1 - wall.axis, _extent(wall, 2)
    low = mount.at[across] - WIDTH / 2.0
    bend, off = thick + radius, _off_bend(mount, thick, radius)
    inside = wall.corners[0] <= low and low + WIDTH <= wall.corners[1]
    if not (2.0 * bend <= gap <= REACH and inside):
        return
    ways: tuple[tuple[Looks, Looks, float], ...] = (("down", "up", 1.0), ("up", "down", -1.0))
    for away, back, sign in ways:
        turn = mount.at[2] - sign * off
        turn = min(turn, span[1] - ON_WALL - bend) if sign > 0 else max(turn, span[0] + ON_WALL + bend)
        last = max(bend, (span[0] - turn) if sign > 0 else (turn - span[1])) + ON_WALL
        if not (span[0] <= turn + sign * last <= span[1] and abs(mount.at[2] - turn) <= REACH):
            continue
        corner = list(mount.at)
        corner[2], corner[across] = mount.at[2] + sign * _edge(mount), low
        first = abs(corner[2] - turn)
        legs: tuple[tuple[Looks, float], ...] = ((away, first), (mount.faces, gap), (back, last))
        hole = StripHole(0, WIDTH / 2.0, _edge(mount), clearance_hole(mount.bolt))
        where = (_vector(corner), PLUS[across])
        yield _Try(_strip(mount, (material, thick, radius), where, legs, hole), wall, gap + first)


def _strip(
    mount: Mount,
    sheet: tuple[str, float, float],
    where: tuple[Vector, Looks],
    legs: tuple[tuple[Looks, float], ...],
    hole: StripHole,
) -> Strip:
    material, thick, radius = sheet
    name = f"foot, {mount.name}"
    return Strip("foot", name, material, thick, radius, where[0], where[1], WIDTH, legs, mount.faces, (hole,))


def _vector(values: Sequence[float]) -> Vector:
    x, y, z = values
    return (x, y, z)


Made = tuple[tuple[Strip, ...], tuple[Cutout, ...], str]


def _checked(rules: BoxRules, site: Site, mount: Mount, one: _Try, taken: Sequence[Block]) -> Made | str:
    """The foot welded to its wall, or screwed where welding is out; or why it cannot be."""
    blocks = strip_blocks(one.strip)
    around = site.around
    if any(meets(block, other) for block in blocks for other in (*around.boxes, *taken)):
        return "would meet a box, its flange or another foot"
    if not all(around.clear_of_keepouts(block, around.bay.tolerance) for block in blocks):
        return "would meet a keep-out"
    off_body = [part for block in blocks if (part := _off_body(block, mount, around)) is not None]
    if not all(around.clear_of_bay(part, BRACKET_ROOM) for part in off_body):
        return "would run into the bay's walls"
    name = one.strip.name
    if rules.process != "printed" and all(around.clear_on_way_in(part) for part in off_body):
        word = (
            f"{name}: weld it to the {one.wall.looks} wall along both sides, {ON_WALL:g} mm each; it goes "
            "in with "
            "the box"
        )
        return (one.strip,), (), word
    return _screwed(site, one)


def _off_body(block: Block, mount: Mount, around: Around) -> Block | None:
    """What of a leg stands further off the body's surface than the survey may be out; None for nothing."""
    looks = DIRECTIONS[mount.faces]
    axis = next(k for k in range(3) if looks[k])
    spare = 2.0 * around.bay.tolerance + 1.0
    low, high = list(block.low), list(block.high)
    if looks[axis] > 0:
        low[axis] = max(low[axis], mount.at[axis] + spare)
    else:
        high[axis] = min(high[axis], mount.at[axis] - spare)
    return Block(_vector(low), _vector(high)) if low[axis] < high[axis] else None


def _screwed(site: Site, one: _Try) -> Made | str:
    """Two screws through the wall near the end of the leg on it, heads inside, nuts on once the box "
    "stands."""
    strip, wall = one.strip, one.wall
    way, length = strip.legs[-1]
    fold = PLUS.index(strip.along)
    across = length - FROM_SCREW
    places = [strip.width / 2.0 - SCREWS_APART / 2.0, strip.width / 2.0 + SCREWS_APART / 2.0]
    hole, cutouts = clearance_hole(WALL_SCREW), []
    end = strip_end(strip)
    for place in places:
        at = list(end)
        axis = next(k for k in range(3) if DIRECTIONS[way][k])
        at[axis] -= DIRECTIONS[way][axis] * FROM_SCREW
        at[fold] += place
        along, up = (at[1 - wall.axis], at[2])
        behind = wall.block(
            (along - 8.0, along + 8.0), (up - 8.0, up + 8.0), (-wall.thickness - HEAD_BEHIND, -wall.thickness)
        )
        half = hole / 2.0
        if not wall.takes((along - half, along + half), (up - half, up + half)):
            return "could not be screwed: its screws would stand in a bend of the wall"
        if any(meets(behind, other) for other in (*site.inside, *site.holes)):
            return (
                f"does not pass the opening and could not be screwed: {HEAD_BEHIND:g} mm for heads are "
                "not free inside"
            )
        cutouts.append(Cutout(f"screw of {strip.name}", wall.looks, _vector(at), hole))
    holes = tuple(StripHole(len(strip.legs) - 1, place, across, hole) for place in places)
    word = (
        f"{strip.name}: two button-head screws M6 with large washers from inside through the "
        f"{wall.looks} wall, seal them, before modules are in; the foot is put on once the box stands in "
        "its place"
    )
    return (replace(strip, holes=strip.holes + holes),), tuple(cutouts), word


def strip_end(strip: Strip) -> Vector:
    """Where the last leg of a strip ends, on its outside at the start of the folds [mm]."""
    at = strip.start
    for way, length in strip.legs:
        at = _vector([a + b * length for a, b in zip(at, DIRECTIONS[way], strict=True)])
    return at


def _spreading(mount: Mount) -> tuple[Strip, ...]:
    """A plate behind thin body sheet."""
    if mount.body_thickness >= THIN:
        return ()
    looks = DIRECTIONS[mount.faces]
    axis = next(k for k in range(3) if looks[k])
    first, second = (k for k in range(3) if k != axis)
    corner = [at - way * mount.body_thickness for at, way in zip(mount.at, looks, strict=True)]
    corner[first] -= PLATE / 2.0
    corner[second] -= PLATE / 2.0
    hole = StripHole(0, PLATE / 2.0, PLATE / 2.0, clearance_hole(mount.bolt))
    return (
        Strip(
            "spreading plate",
            f"spreading plate, {mount.name}",
            "steel-s235",
            PLATE_THICKNESS,
            PLATE_THICKNESS,
            _vector(corner),
            PLUS[first],
            PLATE,
            ((PLUS[second], PLATE),),
            OPPOSITE[mount.faces],
            (hole,),
        ),
    )


def _drilled(mount: Mount) -> tuple[str, ...]:
    """The line for the list of holes drilled in the body."""
    if not mount.drilled:
        return ()
    x, y, z = mount.at
    where = (
        f"{clearance_hole(mount.bolt):g} mm at {x:.0f}, {y:.0f}, {z:.0f} in {mount.body_thickness:g} mm sheet"
    )
    return (f"hole drilled in the body for {mount.name}: {where}; ask whether the car's papers allow it",)


def foot_fasteners(feet: Sequence[Foot]) -> tuple[Fastener, ...]:
    """Bolts of the feet to the body, and screws of those that are not welded to the box."""
    found = []
    for bolt in sorted({foot.mount.bolt for foot in feet}):
        names = [foot.mount.name for foot in feet if foot.mount.bolt == bolt]
        what = "bolt 8.8 with large washers and lock nut"
        found.append(
            Fastener(what, f"M{bolt:g} x {3.0 * bolt + 6.0:g}", len(names), f"feet: {', '.join(names)}")
        )
    screws = sum(len(foot.cutouts) for foot in feet)
    if screws:
        found.append(
            Fastener("button-head screw with large washers, lock nut", "M6 x 20", screws, "feet to the wall")
        )
    return tuple(found)
