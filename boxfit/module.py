"""A battery module and the ways it may stand."""

from dataclasses import dataclass
from itertools import permutations, product
from typing import Literal

from boxfit.bay import Vector

Dimension = Literal["length", "width", "height"]
Axis = Literal["x", "y", "z"]
DIMENSIONS: tuple[Dimension, ...] = ("length", "width", "height")
AXES: tuple[Axis, ...] = ("x", "y", "z")
FACES = (("back", "front"), ("right", "left"), ("bottom", "top"))
"""The faces at the low and the high end of length, width and height."""
HELD_AT = (("front", "back"), ("left", "right"))
"""The pairs of faces along whose upper edges a module may be held down."""


@dataclass(frozen=True)
class Voltage:
    """Volts [V] of one module empty, nominal and full."""

    empty: float
    nominal: float
    full: float


@dataclass(frozen=True)
class Current:
    """Amperes [A] one module may give all the time and for a moment."""

    continuous: float
    peak: float


@dataclass(frozen=True)
class FaceRoom:
    """Room [mm] kept clear of everything at each face."""

    front: float = 0.0
    back: float = 0.0
    left: float = 0.0
    right: float = 0.0
    top: float = 0.0
    bottom: float = 0.0


@dataclass(frozen=True)
class Module:
    """A battery unit placed whole: sizes [mm], mass [kg], energy [kWh], capacity [Ah].

    `room_shared` allows two modules of a tier that look at each other to keep one room clear between them.
    It may be pressed down on strips of `held_width` [mm] along the upper edges of the two faces `held_at`,
    the one exception to the room at that face (default: common practice, no source). `terminals` names the
    face in whose middle they sit; empty where the file does not tell. `price` is in any money, None where not
    given.
    """

    name: str
    stem: str
    length: float
    width: float
    height: float
    mass: float
    energy: float
    capacity: float
    voltage: Voltage
    up: tuple[Dimension, ...]
    spacing: float
    current: Current | None = None
    room: FaceRoom = FaceRoom()
    room_shared: bool = False
    held_at: tuple[str, str] = HELD_AT[0]
    held_width: float = 12.0
    terminals: str = ""
    price: float | None = None


@dataclass(frozen=True)
class Stance:
    """A module turned to the car's axes: size [mm] along x, y, z and room [mm] at its low and high faces."""

    up: Dimension
    length_along: Axis
    size: Vector
    room_low: Vector
    room_high: Vector
    faces: tuple[str, str, str]
    """The module's own face that looks forward (+x), left (+y) and up (+z)."""


def _stance(module: Module, order: tuple[int, int, int], signs: tuple[int, int, int]) -> Stance:
    """The stance with module dimension order[k] along axis k, its high end at +k where signs[k] is 1."""
    sizes = (module.length, module.width, module.height)
    low: list[float] = []
    high: list[float] = []
    looking: list[str] = []
    for dimension, sign in zip(order, signs, strict=True):
        towards_low, towards_high = FACES[dimension] if sign > 0 else FACES[dimension][::-1]
        low.append(getattr(module.room, towards_low))
        high.append(getattr(module.room, towards_high))
        looking.append(towards_high)
    return Stance(
        up=DIMENSIONS[order[2]],
        length_along=AXES[order.index(0)],
        size=(sizes[order[0]], sizes[order[1]], sizes[order[2]]),
        room_low=(low[0], low[1], low[2]),
        room_high=(high[0], high[1], high[2]),
        faces=(looking[0], looking[1], looking[2]),
    )


def _is_turn(order: tuple[int, int, int], signs: tuple[int, int, int]) -> bool:
    """True for a rotation, False for a mirror image."""
    inversions = sum(order[i] > order[j] for i in range(3) for j in range(i + 1, 3))
    handed: int = (-1) ** inversions * signs[0] * signs[1] * signs[2]
    return handed == 1


def stances(module: Module) -> tuple[Stance, ...]:
    """Every way the module may stand, equal ones once, in a fixed order.

    A module standing on its height is never upside down. A face that needs room cannot be stood on.

    >>> volts = Voltage(33, 44, 50.4)
    >>> heron = Module("Heron", "heron", 355, 151, 108, 11.6, 2.2, 50, volts, ("height",), 2.0)
    >>> [(s.up, s.length_along, s.size) for s in stances(heron)]
    [('height', 'x', (355, 151, 108)), ('height', 'y', (151, 355, 108))]
    """
    found: dict[tuple[object, ...], Stance] = {}
    orders = [(a, b, c) for a, b, c in permutations((0, 1, 2)) if DIMENSIONS[c] in module.up]
    for order in orders:
        for signs in product((1, -1), (1, -1), (1, -1)):
            if not _is_turn(order, signs) or (order[2] == 2 and signs[2] < 0):
                continue
            stance = _stance(module, order, signs)
            key = (stance.up, stance.length_along, stance.size, stance.room_low, stance.room_high)
            if stance.room_low[2] == 0.0:
                found.setdefault(key, stance)
    rank = {dimension: place for place, dimension in enumerate(("height", "width", "length"))}
    return tuple(sorted(found.values(), key=lambda s: (rank[s.up], s.length_along, s.room_high, s.room_low)))
