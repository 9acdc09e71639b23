"""Printed aids for any box: a dummy module, a gauge for its inside corners, one for a hand at the terminals.

Each is described by the blocks that fill it and those that are hollow, in coordinates of its own [mm]; its
corner or that of the module it stands for is at the origin. Figures: common practice, no source.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from boxfit.bay import Bay, Block, BoxRules, Vector
from boxfit.box.assembly_hand import HAND, SWING
from boxfit.box.parts import Plate
from boxfit.box.print_cuts import cannot_cut, divided
from boxfit.box.print_joints import Division, Ring, ToCut
from boxfit.box_details import bend_radius, rib_depth
from boxfit.box_shape import rectangle
from boxfit.module import Module
from boxfit.workshop import PrintShop

if TYPE_CHECKING:
    from boxfit.box.whole import BuiltBox

OPEN = 1.0
"""How far [mm] a hollow reaches out through an open face."""
CORNER_LEG = 60.0
"""Sides [mm] of the corner gauge, longer where the bend asks for it."""
PAD = 20.0
"""Height [mm] of the corner gauge's pads, and width of its feet."""
LEAST_RING = 10.0
"""The ring of the terminal gauge is no lower than this [mm]."""


@dataclass(frozen=True)
class Gauge:
    """A printed aid: `about` says how it is used, `division` how it is cut for the bed."""

    name: str
    about: str
    filled: tuple[Block, ...]
    hollow: tuple[Block, ...]
    division: Division


def gauges(module: Module, built: "tuple[BuiltBox, ...]") -> tuple[Gauge, ...]:
    """The aids for a module and the boxes that take it; a corner gauge for each different inside corner.

    None where `gauge_notes` has a reason.
    """
    if not built or gauge_notes(module, built):
        return ()
    different: dict[Gauge, Bay] = {}
    for one in built:
        different.setdefault(corner_gauge(one.bay.box), one.bay)
    corners = tuple(different)
    if len(corners) > 1:
        corners = tuple(corner_gauge(bay.box, f"corner gauge {bay.name}") for bay in different.values())
    rules = built[0].bay.box
    return (dummy_module(module, rules), *corners, terminal_gauge(module, rules))


def gauge_notes(module: Module, built: "tuple[BuiltBox, ...]") -> tuple[str, ...]:
    """Why no aids are made for the shop that prints; empty where they are."""
    if not built:
        return ()
    rules, room = built[0].bay.box, module.room
    more = 2.0 * rules.tolerances.module
    size = (
        module.length + room.front + room.back + more,
        module.width + room.left + room.right + more,
        module.height + room.top + room.bottom + more,
    )
    shop = rules.print_shop
    reasons = cannot_cut("the dummy module", size, gauge_wall(shop), shop)
    return tuple(f"no dummy module and gauges to print: {reason}" for reason in reasons)


def gauge_wall(shop: PrintShop) -> float:
    """Thickness [mm] of the walls of an aid: two of the least, that they may lap.

    >>> gauge_wall(PrintShop())
    2.6
    """
    return 2.0 * shop.least_wall + shop.joint


def dummy_module(module: Module, rules: BoxRules) -> Gauge:
    """A shell as large as the largest such module, open below; frames on it are the room it keeps clear.

    x is along its length, y along its width, z up its height; the origin is the low corner of its body.
    """
    tolerance, wall = 2.0 * rules.tolerances.module, gauge_wall(rules.print_shop)
    x, y, z = module.length + tolerance, module.width + tolerance, module.height + tolerance
    room = module.room
    body, below, above = Block((0.0, 0.0, 0.0), (x, y, z)), -room.bottom, z + room.top
    filled, hollow = [Block((0.0, 0.0, below), (x, y, above))], []
    hollow.append(Block((wall, wall, below - OPEN), (x - wall, y - wall, z - wall)))
    if room.top:
        hollow.append(Block((wall, wall, z), (x - wall, y - wall, above + OPEN)))
    frames = [
        *_frame(body, 0, (-room.back, room.front), wall),
        *_frame(body, 1, (-room.right, room.left), wall),
    ]
    outline = rectangle((0.0, 0.0), (x, y))
    inside = rectangle((wall, wall), (x - wall, y - wall))
    low = (-room.back, -room.right, below)
    high = (x + room.front, y + room.left, above)
    to_cut = ToCut(
        low,
        high,
        (Ring(inside),),
        (Plate(outline, below, above),),
        wall,
        stops=tuple(frame for frame, _ in frames),
        levels=((z - wall, z),),
    )
    return Gauge(
        "dummy module",
        "goes where a module goes, at its largest; the frames on it are the room that must stay clear",
        (*filled, *(frame for frame, _ in frames)),
        (*hollow, *(inner for _, inner in frames)),
        divided(to_cut, rules.print_shop),
    )


def _frame(body: Block, axis: int, rooms: tuple[float, float], wall: float) -> list[tuple[Block, Block]]:
    """Frames on the low and the high face across an axis, as deep as the room there: filled, and hollow."""
    found: list[tuple[Block, Block]] = []
    for face, room in zip((body.low[axis], body.high[axis]), rooms, strict=True):
        if not room:
            continue
        ends = sorted((face, face + room))
        out = sorted((face, face + room + (OPEN if room > 0.0 else -OPEN)))
        found.append((_between(body, axis, ends, 0.0), _between(body, axis, out, wall)))
    return found


def _between(body: Block, axis: int, ends: list[float], inset: float) -> Block:
    """The body's extent across an axis so much [mm] smaller all round, from end to end along it."""
    low = [side + inset for side in body.low]
    high = [side - inset for side in body.high]
    low[axis], high[axis] = ends
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def corner_gauge(rules: BoxRules, name: str = "corner gauge") -> Gauge:
    """Three plates that meet in a module's corner, at the origin, on feet and with pads towards the walls.

    In a bare tray its feet stand in for the floor liner, its pads for liner and gap (for the gap alone where
    ribs take the liner's place). Where pads touch both walls and all feet the floor, a module has its room;
    where it rocks on a bend or a weld, it has not.
    """
    ribs = bool(rib_depth(rules))
    reach = rules.gap if ribs else rules.liner + rules.gap
    lift = 0.0 if ribs else rules.liner
    round_off = max(bend_radius(rules), rules.fold_shop.weld_bead)
    leg, thick = max(CORNER_LEG, round_off + 2.0 * PAD), max(4.0, gauge_wall(rules.print_shop))
    start = max(PAD, round_off - reach + 2.0)
    filled = [
        Block((0.0, 0.0, 0.0), (leg, leg, thick)),
        Block((0.0, 0.0, 0.0), (thick, leg, leg)),
        Block((0.0, 0.0, 0.0), (leg, thick, leg)),
    ]
    if reach:
        filled.append(Block((-reach, start, leg - PAD), (0.0, leg, leg)))
        filled.append(Block((start, -reach, leg - PAD), (leg, 0.0, leg)))
    if lift:
        filled.append(Block((leg - PAD, start, -lift), (leg, leg, 0.0)))
        filled.append(Block((start, leg - PAD, -lift), (leg, leg, 0.0)))
    where = "on the ribs" if ribs else "in the bare tray, before the liner"
    about = (
        f"{where}: push it into each inside corner; feet flat and both pads touching, a module has its gap "
        f"of {rules.gap:g} mm; rocking on bend or weld, it has not"
    )
    return Gauge(name, about, tuple(filled), (), _plain(tuple(filled), rules.print_shop))


def terminal_gauge(module: Module, rules: BoxRules) -> Gauge:
    """A ring as wide as a hand, as long as a spanner swings and as high as the room at the terminals.

    An upright plate at its end is as high as a hand with a spanner needs above the face.
    """
    room = module.room
    most = max(room.top, room.front, room.back, room.left, room.right)
    wall, high = max(4.0, gauge_wall(rules.print_shop)), max(most, LEAST_RING)
    filled = (
        Block((0.0, 0.0, 0.0), (SWING, HAND, high)),
        Block((0.0, 0.0, 0.0), (wall, HAND, max(SWING, high + wall))),
    )
    hollow = (Block((wall, wall, -OPEN), (SWING - wall, HAND - wall, high + OPEN)),)
    about = (
        f"pass its ring of {HAND:g} x {SWING:g} mm over the terminals of each module in the open box: "
        f"{high:g} mm high, it must end below lid and shelf; its plate is the {SWING:g} mm a hand needs above"
    )
    return Gauge("terminal gauge", about, filled, hollow, _plain(filled, rules.print_shop))


def _plain(filled: tuple[Block, ...], shop: PrintShop) -> Division:
    """Cuts of an aid that is small enough for most beds: straight ones, where it must be."""
    low, high = _extent(filled)
    return divided(ToCut(low, high, ()), shop)


def _extent(filled: tuple[Block, ...]) -> tuple[Vector, Vector]:
    """The low and the high corner of blocks together."""
    x, y, z = (min(one.low[axis] for one in filled) for axis in range(3))
    a, b, c = (max(one.high[axis] for one in filled) for axis in range(3))
    return (x, y, z), (a, b, c)
