"""A box as its fittings find it: its place in the bay, and what stands behind its walls."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from boxfit.bay import Bay, Block, Vector
from boxfit.box.hold_yield import Yielding
from boxfit.box.outside.around import around, own_blocks
from boxfit.box.outside.place import Site
from boxfit.box.outside.wall import sides_of, walls_of
from boxfit.box.parts import BoxParts
from boxfit.box.strip_legs import strip_blocks
from boxfit.layout import PlacedBox, PlacedModule


@dataclass(frozen=True)
class Standing:
    """A box in its bay with its parts, and the strips already fixed to it.

    `yielding` is where its hold-downs are still to go; they give way to what is placed before them.
    """

    bay: Bay
    box: PlacedBox
    parts: BoxParts
    yielding: tuple[Yielding, ...] = ()

    @property
    def middle(self) -> Vector:
        """The middle of its outside [mm]."""
        x, y, z = ((a + b) / 2.0 for a, b in zip(self.box.low, self.box.high, strict=True))
        return (x, y, z)


def site_of(one: Standing, standing: Sequence[Standing]) -> Site:
    """The box among all others; strips already fixed to it count as what is inside.

    The room above a module is kept apart: cable entries, disconnect and breather may reach into it.
    """
    inside = [Block(each.low, each.high) for each in one.box.modules]
    inside += [room for each in one.box.modules for room in _rooms_beside(each)]
    inside += [Block(shelf.plate.low, shelf.plate.high) for shelf in one.parts.shelves]
    inside += list(_ledges(one.parts))
    inside += [block for strip in one.parts.fittings.strips for block in strip_blocks(strip)]
    boxes = tuple(block for other in standing for block in own_blocks(other.parts))
    above = tuple(_room_above(each) for each in one.box.modules)
    round_it = around(one.bay, Block(one.box.low, one.box.high), boxes)
    return Site(one.parts.name, walls_of(one.parts), tuple(inside), round_it, above, one.yielding)


def _rooms_beside(module: PlacedModule) -> Iterator[Block]:
    """The room that a module keeps at faces that look sideways."""
    low, high, stance = module.low, module.high, module.stance
    for axis in (0, 1):
        for start, end in (
            (low[axis] - stance.room_low[axis], low[axis]),
            (high[axis], high[axis] + stance.room_high[axis]),
        ):
            if end > start:
                yield Block(_with(low, axis, start), _with(high, axis, end))


def _room_above(module: PlacedModule) -> Block:
    (x, y, _), (a, b, top) = module.low, module.high
    return Block((x, y, top), (a, b, top + module.stance.room_high[2]))


def _with(point: Vector, axis: int, value: float) -> Vector:
    x, y, z = (value if place == axis else old for place, old in enumerate(point))
    return (x, y, z)


def _ledges(parts: BoxParts) -> Iterator[Block]:
    """The bars under shelves, one for each side."""
    for bar in parts.tray.ledges:
        for axis, sign, plane, (start, end) in sides_of(bar.outside.outline):
            low, high = sorted((plane, plane - sign * bar.width))
            corners = ((low, start), (high, end)) if axis == 0 else ((start, low), (end, high))
            yield Block((*corners[0], bar.outside.bottom), (*corners[1], bar.outside.top))
