"""What a lifting lug looks like on a wall, and the same as figures for the sums. [mm, kg]"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import atan2, degrees

from boxfit.bay import Vector
from boxfit.box.fitting import DIRECTIONS, Looks, Strip, StripHole
from boxfit.box.outside.around import own_blocks
from boxfit.box.outside.wall import Wall, spread
from boxfit.box.parts import BoxParts
from boxfit.retention.lug import DOWN, HEIGHTS, Lug, share, to_edge
from boxfit.standards.lifting import BOW, HOLE, MOST_SLOPE, PIN, upright_share
from boxfit.standards.strengths import STRENGTHS

PIN_PAST = 14.0
"""How far the pin stands out past flange and cover plate [mm], so that a shackle clears them: common
practice, no source."""
ALUMINIUM, STEEL = (6.0, 8.0), (4.0, 5.0, 6.0, 8.0)
"""Sheet of lugs [mm], the first that of feet; none so thick that less than 1.5 t is left over the hole:
common practice, no source."""
ROUNDED = 0.45
"""Corners are rounded by no more than this share of the height [-]."""
SPARE = 1.1
"""Lugs are chosen for so many times the mass known by then [-], as fittings are still to come: common
practice, no source."""
WALL_SHARE = 0.7
"""A lug takes no more of its wall's height [-]: common practice, no source."""


@dataclass(frozen=True)
class Size:
    """Thickness and height of a lug [mm]."""

    thickness: float
    height: float

    def contains(self, other: "Size") -> bool:
        """Whether it is as large as another both ways, so that it has no room where that has none.

        >>> Size(8.0, 60.0).contains(Size(8.0, 40.0)), Size(6.0, 60.0).contains(Size(8.0, 40.0))
        (True, False)
        """
        return self.thickness >= other.thickness and self.height >= other.height


def sizes_on(parts: BoxParts, wall: Wall) -> tuple[Size, ...]:
    """Every lug that a wall has height for, low ones first, thin ones first among them; one at least."""
    sheets = ALUMINIUM if parts.tray.material.startswith("aluminium") else STEEL
    most = WALL_SHARE * (wall.levels[1] - wall.levels[0])
    heights = [height for height in HEIGHTS if height <= most] or [HEIGHTS[0]]
    return tuple(Size(sheet, height) for height in heights for sheet in sheets)


def bears(parts: BoxParts, wall: Wall, size: Size, mass: float) -> bool:
    """Whether lugs of a size pass all their checks on a box of about that mass [kg].

    False where no strength is known of its metal.
    """
    if parts.tray.material not in STRENGTHS:
        return False
    strip = lug_at(parts, wall, sum(wall.corners) / 2.0, size)
    return share(lug_figures(parts, wall, strip, SPARE * mass)) <= 1.0


def lug_at(parts: BoxParts, wall: Wall, along: float, size: Size) -> Strip:
    """A plate that stands square on the wall under the flange, its hole past all that hangs over it.

    Where little hangs over it the hole still has its metal towards the wall.

    All lugs of one size are the same part: `inwards` is to the right of its way as it is seen with its upper
    edge on the left.
    """
    tray, thick = parts.tray, size.thickness
    top = wall.levels[1] - (tray.thickness if tray.flange > 0.0 else 0.0)
    edge = to_edge(thick)
    lever = max(_reach(parts, wall, along, top) + PIN_PAST, edge)
    inwards = _beside(wall.looks)
    near, far = spread(along, thick)
    start = wall.point(near if DIRECTIONS[inwards][1 - wall.axis] > 0.0 else far, top)
    rounded = min(edge, ROUNDED * size.height)
    return Strip(
        "lifting lug",
        "",
        tray.material,
        thick,
        0.0,
        start,
        "down",
        size.height,
        ((wall.looks, lever + edge),),
        inwards,
        (StripHole(0, DOWN, lever, HOLE),),
        rounded=rounded,
    )


def _reach(parts: BoxParts, wall: Wall, along: float, top: float) -> float:
    """How far flange, lid and cover plate stand out past a wall at a place along it."""
    axis = wall.axis
    over = [
        (block.high[axis] if wall.sign > 0 else block.low[axis])
        for block in own_blocks(parts)
        if block.high[2] > top + 1e-6
        and block.low[axis] - 1e-6 <= wall.plane <= block.high[axis] + 1e-6
        and block.low[1 - axis] <= along <= block.high[1 - axis]
    ]
    return max([0.0, *((end - wall.plane) * wall.sign for end in over)])


def _beside(looks: Looks) -> Looks:
    """The way that a lug's sheet lies: down turned to where the lug points."""
    (x, y, _) = DIRECTIONS[looks]
    # (0, 0, -1) crossed with the lug's way
    way = (y + 0.0, 0.0 - x, 0.0)
    return next(name for name, one in DIRECTIONS.items() if one == way)


def lug_figures(parts: BoxParts, wall: Wall, lug: Strip, mass: float) -> Lug:
    """A lug of a box of that mass [kg], and the wall it stands on, for the sums.

    Raises KeyError for a metal without known strength.
    """
    metal, tray = STRENGTHS[lug.material], parts.tray
    return Lug(
        name=lug.name,
        load=upright_share(mass),
        thickness=lug.thickness,
        height=lug.width,
        lever=lug.holes[0].across,
        flange=tray.flange,
        metal=metal,
        wall=(wall.corners[1] - wall.corners[0], wall.levels[1] - wall.levels[0]),
        wall_thickness=tray.thickness,
        wall_metal=STRENGTHS[tray.material],
    )


def walls_under(lug: Strip, walls: tuple[Wall, ...]) -> Iterator[Wall]:
    """The wall a lug stands on; nothing where it stands on none."""
    looks = lug.legs[0][0]
    for wall in walls:
        beside = wall.corners[0] <= lug.start[1 - wall.axis] <= wall.corners[1]
        on_it = wall.looks == looks and abs(wall.plane - lug.start[wall.axis]) < 1e-6
        if on_it and beside and wall.levels[0] < lug.start[2] <= wall.levels[1]:
            yield wall
            return


def slope_left(parts: BoxParts) -> float:
    """How far off upright [degrees] a sling may hang until its shackle meets flange, lid or cover."""
    tray = parts.tray
    hole = tray.bands[-1].top - (tray.thickness if tray.flange > 0.0 else 0.0) - DOWN
    top = (parts.cover_plate or parts.lid).plate.top
    return min(MOST_SLOPE, degrees(atan2(PIN_PAST - BOW / 2.0, top - hole)))


def foot_of_lug(lug: Strip) -> Vector:
    """Where a lug meets its wall, at its upper edge [mm]."""
    x, y, z = (
        at + way * lug.thickness / 2.0 for at, way in zip(lug.start, DIRECTIONS[lug.inwards], strict=True)
    )
    return (x, y, z)


def notes_of_lug(parts: BoxParts, lug: Strip, mass: float) -> tuple[str, ...]:
    """What its maker must know; `mass` [kg] is that of the filled box."""
    flange = " and to the underside of the flange" if parts.tray.flange > 0.0 else ""
    return (
        f"outer corners rounded R{lug.rounded:g}; hole for a shackle with a pin of {PIN:g} mm; edges broken",
        f"welded upright to the wall{flange}: fillets along both faces, and across its lower end on the wall",
        f"{mass / 2.0:.0f} kg each, as two of four may carry alone; load test and marking by local rules",
    )
