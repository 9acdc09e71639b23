"""Feet: angles and troughs from the walls of a box to the places of the body that it may be bolted to."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from boxfit.bay import Bay, Block, BoxRules, Mount
from boxfit.box.fitting import DIRECTIONS, Cutout, Fastener, Looks, Strip, StripHole
from boxfit.box.outside.around import Around, meets
from boxfit.box.outside.doublers import doubler_under, raised
from boxfit.box.outside.foot_shapes import (
    ON_WALL,
    PLUS,
    REACH,
    USUAL,
    Chosen,
    Try,
    feet_to,
    spreading,
    strip_end,
    vector,
)
from boxfit.box.outside.place import Site
from boxfit.box.outside.wall import spread
from boxfit.box.strip_legs import strip_blocks
from boxfit.standards.holes import clearance_hole

WALL_SCREW, SCREWS_APART, HEAD_BEHIND, HEAD_HALF = 6.0, 30.0, 5.0, 9.0
"""Where a foot cannot be welded: button-head screws M6 through the wall from inside, so far apart [mm]; head
and large washer behind the wall and half across [mm]: ISO 7380 and ISO 7093, from memory."""
FROM_SCREW = 12.0
"""From the end of a foot to its wall screws [mm]."""
BRACKET_ROOM = 0.5
"""What the legs keep from the bay's walls [mm], but for the surface they are bolted to."""


@dataclass(frozen=True)
class Foot:
    """A foot of the box with this place among those of its bay, on the wall that looks this way.

    Welded to it where it has no `cutouts`, else screwed. `lacks` tells what it needs and has no room for.
    """

    mount: Mount
    box: int
    wall: Looks
    strips: tuple[Strip, ...]
    cutouts: tuple[Cutout, ...]
    lacks: str = ""


@dataclass(frozen=True)
class OutOfReach:
    """A mount that no foot reaches: what is in the way, and what would help."""

    mount: Mount
    reason: str
    remedy: str


def feet_of(
    bay: Bay, sites: Sequence[Site], chosen: Mapping[str, Chosen] | None = None
) -> tuple[Foot | OutOfReach, ...]:
    """One foot for each mount of a bay, to the box nearest to it that it can reach; in the mounts' order.

    `chosen` tells by the mount's name which feet are thicker than usual or stand on doublers.
    """
    taken: list[Block] = []
    found: list[Foot | OutOfReach] = []
    for mount in bay.mounts:
        foot = _foot(bay, sites, mount, (chosen or {}).get(mount.name, USUAL), taken)
        if isinstance(foot, Foot):
            taken += [block for strip in foot.strips for block in strip_blocks(strip)]
        found.append(foot)
    return tuple(found)


def _foot(
    bay: Bay, sites: Sequence[Site], mount: Mount, chosen: Chosen, taken: Sequence[Block]
) -> Foot | OutOfReach:
    """The foot as chosen; what leaves it no room is given up and told."""
    for less in _less(chosen):
        made = _foot_of(bay, sites, mount, less, taken)
        if isinstance(made, Foot):
            return replace(made, lacks=_given_up(chosen, less))
    return made


def _less(chosen: Chosen) -> tuple[Chosen, ...]:
    """What was chosen, then with the usual sheet, without its doubler, and the usual foot.

    Thicker sheet bends wider, and a doubler takes some of the way between wall and mount.
    """
    thinner, bare = replace(chosen, thickness=0.0), replace(chosen, doubler=0.0, past=0.0)
    return tuple(dict.fromkeys((chosen, thinner, bare, USUAL)))


def _given_up(chosen: Chosen, less: Chosen) -> str:
    """What a foot went without."""
    words = []
    if chosen.thickness > less.thickness:
        words.append(f"sheet of {chosen.thickness:g} mm, which bends wider,")
    if chosen.doubler > less.doubler:
        words.append(f"a doubler of {chosen.doubler:g} mm under it")
    return f"{' and '.join(words)} found no room" if words else ""


def _foot_of(
    bay: Bay, sites: Sequence[Site], mount: Mount, chosen: Chosen, taken: Sequence[Block]
) -> Foot | OutOfReach:
    """The nearest foot that can be made so."""
    tries = [
        (one.far, number, one)
        for number, site in enumerate(sites)
        for wall in site.walls
        for one in feet_to(bay.box, mount, raised(wall, chosen.doubler), chosen.thickness)
    ]
    reasons = []
    for _, number, one in sorted(tries, key=lambda each: (round(each[0], 6), each[1])):
        made = _checked(bay.box, sites[number], mount, one, taken)
        if isinstance(made, str):
            reasons.append(made)
            continue
        strips, cutouts = made
        if chosen.doubler:
            plate = doubler_under(one, chosen, bay.box.material, mount)
            if plate is None or cutouts or not _is_free(plate, sites[number], taken):
                reasons.append("has no room for its doubler")
                continue
            strips = (*strips, plate)
        named = tuple(
            replace(strip, name=f"{sites[number].name} {strip.name}")
            for strip in (*strips, *spreading(mount))
        )
        return Foot(mount, number, one.wall.looks, named, cutouts)
    return _out_of_reach(mount, reasons)


def _out_of_reach(mount: Mount, reasons: Sequence[str]) -> OutOfReach:
    """Why no foot could be made: the first reason, or that none comes near enough."""
    if reasons:
        remedy = "move the mount along the wall, or choose another place of the body"
        return OutOfReach(mount, f"a foot to it {reasons[0]}", remedy)
    place = f"give a place that a wall of a box stands over or beside, {REACH:g} mm away at most"
    reason = f"no wall of a box is within {REACH:g} mm in a way that a folded foot can bridge"
    return OutOfReach(mount, reason, f"{place}, or weld a bracket to the body there")


def _is_free(plate: Strip, site: Site, taken: Sequence[Block]) -> bool:
    """Whether a doubler meets nothing and goes in with its box."""
    (block,) = strip_blocks(plate)
    around = site.around
    if any(meets(block, other) for other in (*around.boxes, *taken)):
        return False
    return around.clear_of_bay(block, BRACKET_ROOM) and around.clear_on_way_in(block)


Made = tuple[tuple[Strip, ...], tuple[Cutout, ...]]


def _checked(rules: BoxRules, site: Site, mount: Mount, one: Try, taken: Sequence[Block]) -> Made | str:
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
    if rules.process != "printed" and all(around.clear_on_way_in(part) for part in off_body):
        return (one.strip,), ()
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
    return Block(vector(low), vector(high)) if low[axis] < high[axis] else None


def _screwed(site: Site, one: Try) -> Made | str:
    """Two screws through the wall near the end of the leg on it, heads inside, nuts on in the car."""
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
        screw = Cutout(f"screw of {strip.name}", wall.looks, vector(at), hole)
        if not wall.takes(spread(along, hole), spread(up, hole)):
            return "could not be screwed: its screws would stand in a bend of the wall"
        behind = head_behind(screw, wall.thickness)
        if not wall.has_behind(behind) or any(meets(behind, other) for other in (*site.stops, *site.above)):
            words = f"{HEAD_BEHIND:g} mm for heads are not free inside"
            return f"does not pass the opening and could not be screwed: {words}"
        cutouts.append(screw)
    holes = tuple(StripHole(len(strip.legs) - 1, place, across, hole) for place in places)
    return (replace(strip, holes=strip.holes + holes),), tuple(cutouts)


def head_behind(screw: Cutout, thickness: float) -> Block:
    """What head and washer of a foot's screw fill behind a wall of that thickness [mm]."""
    low, high = list(screw.at), list(screw.at)
    for axis, way in enumerate(DIRECTIONS[screw.looks]):
        ends = (screw.at[axis] - way * thickness, screw.at[axis] - way * (thickness + HEAD_BEHIND))
        low[axis] = min(ends) - (0.0 if way else HEAD_HALF)
        high[axis] = max(ends) + (0.0 if way else HEAD_HALF)
    return Block(vector(low), vector(high))


def foot_notes(box: str, feet: Sequence[Foot]) -> tuple[str, ...]:
    """How the feet of a box are fixed to it, and which holes they ask of the body."""
    found = []
    welded = [f"{foot.mount.name} ({foot.wall} wall)" for foot in feet if not foot.cutouts]
    screwed = [f"{foot.mount.name} ({foot.wall} wall)" for foot in feet if foot.cutouts]
    if welded:
        how = f"welded along both sides, {ON_WALL:g} mm each; they go in with the box"
        found.append(f"{box}: feet for {', '.join(welded)}: {how}")
    if screwed:
        screws = "two button-head screws M6 each with large washers from inside, sealed"
        how = f"{screws}, before modules are in; put on once the box stands in its place"
        found.append(f"{box}: feet for {', '.join(screwed)}: {how}")
    found += [f"{box}: foot for {foot.mount.name}: {foot.lacks}" for foot in feet if foot.lacks]
    drilled = [_hole(foot.mount) for foot in feet if foot.mount.drilled]
    if drilled:
        words = "ask whether the car's papers allow them"
        found.append(f"{box}: holes drilled in the body: {'; '.join(drilled)}; {words}")
    return tuple(found)


def _hole(mount: Mount) -> str:
    x, y, z = mount.at
    where = f"{clearance_hole(mount.bolt):g} mm at {x:.0f}, {y:.0f}, {z:.0f}"
    return f"{mount.name} {where} in {mount.body_thickness:g} mm sheet"


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
