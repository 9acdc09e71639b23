"""Modules and the room they keep clear, as forms: one for all that stand alike."""

from boxfit.bay import Block, Vector
from boxfit.module import Module, Stance
from boxfit.solid.body import Form
from boxfit.solid.colours import COLOURS
from boxfit.solid.shapes import block_shape, blocks_shape

ORIGIN: Vector = (0.0, 0.0, 0.0)
Room = tuple[Vector, Vector, Vector]
"""Size of the body, room at its low faces, room at its high faces [mm]."""


class ModuleForms:
    """The forms of one module, each made when first asked for, with the body's low corner at the origin."""

    def __init__(self, module: Module) -> None:
        self._name = module.name
        self._bodies: dict[Vector, Form] = {}
        self._rooms: dict[Room, Form] = {}

    def body(self, stance: Stance) -> Form:
        """The module as a plain block."""
        if stance.size not in self._bodies:
            name = f"{self._name} {' x '.join(f'{side:g}' for side in stance.size)}"
            shape = block_shape(Block(ORIGIN, stance.size))
            self._bodies[stance.size] = Form(name, shape, COLOURS["module"])
        return self._bodies[stance.size]

    def room(self, stance: Stance) -> Form | None:
        """The room outside the body, None where it keeps none."""
        around = room_around(stance)
        if not around:
            return None
        key = (stance.size, stance.room_low, stance.room_high)
        if key not in self._rooms:
            name = f"{self._name} room {len(self._rooms) + 1}"
            self._rooms[key] = Form(name, blocks_shape(around), COLOURS["module room"])
        return self._rooms[key]


def room_around(stance: Stance) -> tuple[Block, ...]:
    """What the body grown by its room has more than the body: up to six blocks [mm] that do not overlap.

    Above and below first, over the whole plan; then front and rear, then left and right.

    >>> turned = Stance("height", "x", (9, 5, 3), (0, 0, 0), (0, 0, 2), ("front", "left", "top"))
    >>> room_around(turned)
    (Block(low=(0, 0, 3), high=(9, 5, 5)),)
    """
    low = [-room for room in stance.room_low]
    high = [size + room for size, room in zip(stance.size, stance.room_high, strict=True)]
    found: list[Block] = []
    for axis in (2, 0, 1):
        for start, end in ((low[axis], 0.0), (stance.size[axis], high[axis])):
            if end > start:
                corners = [*low], [*high]
                corners[0][axis], corners[1][axis] = start, end
                found.append(Block(_vector(corners[0]), _vector(corners[1])))
        low[axis], high[axis] = 0.0, stance.size[axis]
    return tuple(found)


def _vector(values: list[float]) -> Vector:
    """Three figures as a point."""
    x, y, z = values
    return (x, y, z)
