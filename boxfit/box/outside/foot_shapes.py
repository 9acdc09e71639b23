"""What a foot may look like between a mount and a wall: angles, troughs, and the plate behind thin sheet."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from boxfit.bay import BoxRules, Mount, Vector
from boxfit.box.fitting import DIRECTIONS, Looks, Strip, StripHole
from boxfit.box.outside.wall import Span, Wall
from boxfit.standards.bending import least_inside_radius
from boxfit.standards.holes import clearance_hole

REACH = 150.0
"""The longest leg of a foot from its hole, and the widest gap it bridges [mm]: common practice, no source."""
WIDTH = 60.0
"""Usual width of a foot [mm]: common practice, no source."""
ON_WALL = 45.0
"""What of a foot lies flat on the wall beyond its bend [mm], for welds or screws: common practice."""
ALUMINIUM_FOOT, STEEL_FOOT = 6.0, 4.0
"""Sheet of a foot [mm]: what the sums of retention ask of small boxes on four feet at 20 g."""
PLATE, PLATE_THICKNESS, THIN = 80.0, 4.0, 2.0
"""Load-spreading plate behind body sheet thinner than THIN, its side and thickness [mm]: common practice."""
HEAD = 1.25
"""Half a large washer, in threads: M8 lies on 20 mm (common practice, no source)."""
BELOW_FLANGE = 8.0
"""What stays free below a flange for rivet-nuts [mm]."""
OPPOSITE: dict[Looks, Looks] = {
    "front": "rear",
    "rear": "front",
    "left": "right",
    "right": "left",
    "up": "down",
    "down": "up",
}
PLUS: tuple[Looks, Looks, Looks] = ("front", "left", "up")


Sheet = tuple[str, float, float]
"""Material, thickness and inside radius [mm]."""
Made = tuple[Sheet, float]
"""What a foot is made of, and its width [mm]."""


@dataclass(frozen=True)
class Try:
    """A foot as it might be: its strip, the leg on the wall, and how far it bridges [mm]."""

    strip: Strip
    wall: Wall
    far: float


@dataclass(frozen=True)
class Chosen:
    """What a foot was found to need: its sheet [mm], 0 for the usual; a doubler under it, its thickness, and
    how far [mm] it reaches past the foot's welds all round; 0 for none."""

    thickness: float = 0.0
    doubler: float = 0.0
    past: float = 0.0


USUAL = Chosen()


def feet_to(rules: BoxRules, mount: Mount, wall: Wall, thickness: float = 0.0) -> Iterator[Try]:
    """Angles where the wall stands square to the body's surface there, troughs where they face each other.

    Of sheet so thick [mm], the usual where that is 0; as wide as asked, then as wide as usual.
    """
    for width in dict.fromkeys((rules.foot_width, min(rules.foot_width, WIDTH))):
        yield from _shapes((foot_sheet(rules, thickness), width), mount, wall)


def _shapes(made: Made, mount: Mount, wall: Wall) -> Iterator[Try]:
    """The angle or the troughs of one sheet and width."""
    looks = DIRECTIONS[mount.faces]
    axis = next(k for k in range(3) if looks[k])
    sign = 1 if looks[axis] > 0 else -1
    if axis != wall.axis:
        yield from _angle(made, mount, wall, (axis, sign))
    elif sign == -wall.sign:
        yield from _trough(made, mount, wall)


def foot_sheet(rules: BoxRules, thickness: float = 0.0) -> Sheet:
    """Material, thickness and inside radius [mm] of feet: the box's own metal, steel for a printed box.

    The usual thickness where none is given.

    >>> from boxfit.standards.common_practice import USUAL_BOX
    >>> foot_sheet(USUAL_BOX)[:2]
    ('aluminium-5754', 6.0)
    """
    material = "steel-s235" if rules.process == "printed" else rules.material
    thick = thickness or (ALUMINIUM_FOOT if material.startswith("aluminium") else STEEL_FOOT)
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


def _angle(made: Made, mount: Mount, wall: Wall, facing: tuple[int, int]) -> Iterator[Try]:
    """One leg on the body, from beyond the hole to the wall; the other along the wall."""
    (_, thick, radius), width = made
    axis, sign = facing
    fold = next(k for k in range(3) if k not in (axis, wall.axis))
    beyond = (mount.at[wall.axis] - wall.plane) * wall.sign
    span, along = _extent(wall, axis), _extent(wall, fold)
    entry = span[0] if sign > 0 else span[1]
    gap = (entry - mount.at[axis]) * sign
    start_on_wall = max(gap, thick + radius)
    length = start_on_wall + ON_WALL
    end = mount.at[axis] + sign * length
    low = mount.at[fold] - width / 2.0
    if not (_off_bend(mount, thick, radius) <= beyond <= REACH and gap <= REACH):
        return
    if not (span[0] <= end <= span[1] and along[0] <= low and low + width <= along[1]):
        return
    corner = list(mount.at)
    corner[wall.axis] = mount.at[wall.axis] + wall.sign * _edge(mount)
    corner[fold] = low
    towards = OPPOSITE[wall.looks]
    first = beyond + _edge(mount)
    hole = StripHole(0, width / 2.0, _edge(mount), clearance_hole(mount.bolt))
    legs: tuple[tuple[Looks, float], ...] = ((towards, first), (mount.faces, length))
    yield Try(
        _strip(mount, made, (vector(corner), PLUS[fold]), legs, hole),
        wall,
        beyond + max(gap, 0.0),
    )


def _trough(made: Made, mount: Mount, wall: Wall) -> Iterator[Try]:
    """One leg on the body, one across the gap, one on the wall; open upwards, else downwards."""
    (_, thick, radius), width = made
    gap = (mount.at[wall.axis] - wall.plane) * wall.sign
    across, span = 1 - wall.axis, _extent(wall, 2)
    low = mount.at[across] - width / 2.0
    bend, off = thick + radius, _off_bend(mount, thick, radius)
    inside = wall.corners[0] <= low and low + width <= wall.corners[1]
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
        hole = StripHole(0, width / 2.0, _edge(mount), clearance_hole(mount.bolt))
        where = (vector(corner), PLUS[across])
        yield Try(_strip(mount, made, where, legs, hole), wall, gap + first)


def _strip(
    mount: Mount,
    made: Made,
    where: tuple[Vector, Looks],
    legs: tuple[tuple[Looks, float], ...],
    hole: StripHole,
) -> Strip:
    (material, thick, radius), width = made
    name = f"foot, {mount.name}"
    return Strip("foot", name, material, thick, radius, where[0], where[1], width, legs, mount.faces, (hole,))


def vector(values: Sequence[float]) -> Vector:
    """Three figures as a point."""
    x, y, z = values
    return (x, y, z)


def spreading(mount: Mount) -> tuple[Strip, ...]:
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
            vector(corner),
            PLUS[first],
            PLATE,
            ((PLUS[second], PLATE),),
            OPPOSITE[mount.faces],
            (hole,),
        ),
    )


def strip_end(strip: Strip) -> Vector:
    """Where the last leg of a strip ends, on its outside at the start of the folds [mm]."""
    at = strip.start
    for way, length in strip.legs:
        at = vector([a + b * length for a, b in zip(at, DIRECTIONS[way], strict=True)])
    return at
