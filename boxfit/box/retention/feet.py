"""The feet of a built box as figures. Lengths [mm]."""

from collections.abc import Iterator, Sequence
from math import dist

from boxfit.bay import Mount
from boxfit.box.built import BuiltBox
from boxfit.box.fitting import DIRECTIONS, Strip
from boxfit.box.outside.doublers import raised
from boxfit.box.outside.feet import FROM_SCREW, SCREWS_APART
from boxfit.box.outside.foot_shapes import ON_WALL, strip_end
from boxfit.box.outside.wall import Wall, walls_of
from boxfit.box.strip_legs import hole_middle, strip_blocks
from boxfit.retention.foot import Body, Doubler, Foot, OnWall
from boxfit.standards.bolts import PITCHES
from boxfit.standards.strengths import STRENGTHS

GRADE = "8.8"
"""Bolts of the feet, as the list of fasteners orders them."""
WASHER = 2.5
"""A large washer is so many threads across: M8 lies on 20 mm (common practice, no source)."""
FILLET = 0.8
"""Share of a bend's radius that does not count to a bolt's arm: EN 1993-1-8 figure 6.8, from memory."""
BODY = "steel-dc01"
"""What the body sheet is taken to be where nobody knows: common practice, no source."""
CLOSE = 0.01


def feet_of_box(built: BuiltBox) -> tuple[Foot, ...]:
    """Every foot of a metal box, in the order they were made."""
    walls = walls_of(built.parts)
    return tuple(
        _foot(built, strip, mount, wall)
        for strip in built.parts.fittings.strips
        if strip.kind == "foot"
        for mount in mount_of(built, strip)
        for plate in (_plate(built, mount),)
        for wall in _wall(strip, [raised(wall, plate.thickness if plate else 0.0) for wall in walls])
    )


def _plate(built: BuiltBox, mount: Mount) -> Strip | None:
    """The doubler of the foot to a mount."""
    name = f"{built.parts.name} doubler, {mount.name}"
    return next((strip for strip in built.parts.fittings.strips if strip.name == name), None)


def _doubler(built: BuiltBox, strip: Strip, mount: Mount) -> Doubler | None:
    """The same as figures: its sides along the foot's leg on the wall, and across."""
    plate = _plate(built, mount)
    if plate is None:
        return None
    up, wide = plate.legs[0][1], plate.width
    way = strip.legs[-1][0]
    length, width = (up, wide) if way in ("up", "down") else (wide, up)
    axis = next(k for k in range(3) if DIRECTIONS[way][k])
    welds = strip_end(strip)[axis] - DIRECTIONS[way][axis] * ON_WALL / 2.0
    block = strip_blocks(plate)[0]
    return Doubler(plate.thickness, length, width, abs((block.low[axis] + block.high[axis]) / 2.0 - welds))


def mount_of(built: BuiltBox, strip: Strip) -> Iterator[Mount]:
    """The mount whose hole is that of the foot's first leg."""
    at = hole_middle(strip, strip.holes[0])
    yield next(mount for mount in built.bay.mounts if dist(mount.at, at) < CLOSE and mount.bolt in PITCHES)


def _wall(strip: Strip, walls: Sequence[Wall]) -> Iterator[Wall]:
    """The wall that the last leg lies on: the leg before it runs towards that wall."""
    way, end = DIRECTIONS[strip.legs[-2][0]], strip_end(strip)
    axis = next(k for k in (0, 1) if way[k])
    for wall in walls:
        along = end[1 - axis]
        beside = wall.corners[0] - CLOSE <= along <= wall.corners[1] + CLOSE
        level = wall.levels[0] - CLOSE <= end[2] <= wall.levels[1] + CLOSE
        if (
            wall.axis == axis
            and wall.sign == -way[axis]
            and abs(wall.plane - end[axis]) < CLOSE
            and beside
            and level
        ):
            yield wall
            return


def _foot(built: BuiltBox, strip: Strip, mount: Mount, wall: Wall) -> Foot:
    hole, lengths = strip.holes[0], [length for _, length in strip.legs]
    beside, trough = lengths[0] - hole.across, len(lengths) == 3
    screws = sum(other.leg == len(lengths) - 1 for other in strip.holes)
    middle = lengths[-1] - (FROM_SCREW if screws else ON_WALL / 2.0)
    tray = built.parts.tray
    held = OnWall(
        length=ON_WALL,
        size=(wall.corners[1] - wall.corners[0], wall.levels[1] - wall.levels[0]),
        thickness=tray.thickness,
        metal=STRENGTHS[tray.material],
        screws=screws,
        apart=SCREWS_APART if screws else 0.0,
        from_end=FROM_SCREW if screws else 0.0,
        doubler=_doubler(built, strip, mount),
    )
    return Foot(
        name=strip.name,
        at=mount.at,
        axis=DIRECTIONS[mount.faces],
        aside=DIRECTIONS[strip.along],
        towards=DIRECTIONS[strip.legs[0][0]],
        bolt=mount.bolt,
        grade=GRADE,
        washer=WASHER * mount.bolt,
        hole=hole.diameter,
        metal=STRENGTHS[strip.material],
        thickness=strip.thickness,
        width=strip.width,
        arm=beside - strip.thickness - FILLET * strip.radius,
        edge=hole.across,
        trough=trough,
        off=lengths[1] if trough else beside,
        start=lengths[-1] - ON_WALL,
        along=abs(middle - beside) if trough else middle,
        wall=held,
        body=_body(built, mount),
    )


def _body(built: BuiltBox, mount: Mount) -> Body:
    """The sheet at a mount, with the plate behind it where one was made."""
    behind = tuple(
        at - way * mount.body_thickness for at, way in zip(mount.at, DIRECTIONS[mount.faces], strict=True)
    )
    for strip in built.parts.fittings.strips:
        if strip.kind == "spreading plate" and dist(hole_middle(strip, strip.holes[0]), behind) < CLOSE:
            metal = STRENGTHS[strip.material]
            return Body(mount.body_thickness, STRENGTHS[BODY], strip.width, strip.thickness, metal)
    return Body(mount.body_thickness, STRENGTHS[BODY])
