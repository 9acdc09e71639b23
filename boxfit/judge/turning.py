"""Which way round a module stands, worked out from its faces alone."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import product

from boxfit.bay import Vector
from boxfit.judge.claim import ClaimedModule
from boxfit.judge.distance import Cuboid
from boxfit.judge.finding import SLACK, Finding
from boxfit.module import Module

AXIS_NAMES = ("x", "y", "z")
OPPOSITE = {
    "front": "back",
    "back": "front",
    "left": "right",
    "right": "left",
    "top": "bottom",
    "bottom": "top",
}
_FACES: dict[str, tuple[str, Vector]] = {
    "front": ("length", (1, 0, 0)),
    "back": ("length", (-1, 0, 0)),
    "left": ("width", (0, 1, 0)),
    "right": ("width", (0, -1, 0)),
    "top": ("height", (0, 0, 1)),
    "bottom": ("height", (0, 0, -1)),
}
"""The dimension each face ends, and where it looks in the module's own axes."""


@dataclass(frozen=True)
class Turning:
    """A module turned: its faces that look forward, left and up."""

    faces: tuple[str, str, str]

    @property
    def dimensions(self) -> tuple[str, ...]:
        """The module's dimension along x, y and z."""
        return tuple(_FACES[face][0] for face in self.faces)

    def size(self, module: Module) -> tuple[float, ...]:
        """Body size [mm] along x, y and z."""
        return tuple(float(getattr(module, dimension)) for dimension in self.dimensions)

    def room(self, module: Module) -> tuple[Vector, Vector]:
        """Room [mm] at the low and at the high faces along x, y and z."""
        x, y, z = (float(getattr(module.room, OPPOSITE[face])) for face in self.faces)
        a, b, c = (float(getattr(module.room, face)) for face in self.faces)
        return (x, y, z), (a, b, c)

    def is_allowed(self, module: Module) -> bool:
        """True where it may stand so: on no face that needs room, its height never upside down."""
        stands_on = OPPOSITE[self.faces[2]]
        return (
            self.dimensions[2] in module.up and stands_on != "top" and getattr(module.room, stands_on) == 0.0
        )


@dataclass(frozen=True)
class Kept:
    """Room kept clear at a face: its axis, whether it looks up or down that axis, depth and slab [mm]."""

    axis: int
    sign: int
    depth: float
    slab: Cuboid


@dataclass(frozen=True)
class Standing:
    """A module in its place: body, and the room [mm] it keeps at its low and high faces."""

    place: str
    body: Cuboid
    room_low: Vector = (0.0, 0.0, 0.0)
    room_high: Vector = (0.0, 0.0, 0.0)

    def kept(self) -> Iterator[Kept]:
        """The room to keep clear beyond each face that asks for it, as wide as the face."""
        for axis in range(3):
            low, high = self.body.low[axis], self.body.high[axis]
            below, above = self.room_low[axis], self.room_high[axis]
            if below > 0.0:
                yield Kept(axis, -1, below, self.body.spanning(axis, low - below, low))
            if above > 0.0:
                yield Kept(axis, 1, above, self.body.spanning(axis, high, high + above))


@cache
def turnings() -> tuple[Turning, ...]:
    """The 24 ways a block can be turned square to the axes.

    >>> len(turnings())
    24
    """
    return tuple(Turning((x, y, z)) for x, y, z in product(_FACES, repeat=3) if _right_handed(x, y, z))


def _right_handed(forward: str, left: str, up: str) -> bool:
    """True where forward, left and up are square to each other and no mirror image."""
    (ax, ay, az), (bx, by, bz), looks = _FACES[forward][1], _FACES[left][1], _FACES[up][1]
    return (ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx) == looks


def ways_to_stand(claimed: ClaimedModule, module: Module, place: str) -> tuple[Standing, ...] | Finding:
    """Every different way the module may stand as told, or why there is none."""
    body = Cuboid(claimed.low, claimed.high)
    told = claimed.faces
    as_told = [
        turning
        for turning in turnings()
        if turning.dimensions[2] == claimed.up
        and AXIS_NAMES[turning.dimensions.index("length")] == claimed.length_along
        and (told is None or turning.faces == (told.x, told.y, told.z))
    ]
    if not as_told:
        return Finding("module-turning", place, "up, length_along and faces do not go together")
    allowed = [turning for turning in as_told if turning.is_allowed(module)]
    if not allowed:
        return Finding("module-turning", place, f"may not stand with its {claimed.up} up in this way")
    missed = max(abs(body.high[k] - body.low[k] - size) for k, size in enumerate(allowed[0].size(module)))
    if missed > SLACK:
        return Finding("module-turning", place, f"size is {missed:.3f} mm off the module file's", missed)
    rooms = dict.fromkeys(turning.room(module) for turning in allowed)
    return tuple(Standing(place, body, low, high) for low, high in rooms)
