"""What is fixed to a box: parts folded from strips of sheet, bought parts, and the holes they need."""

from dataclasses import dataclass
from typing import Literal

from boxfit.bay import Block, Point, Vector

Looks = Literal["front", "rear", "left", "right", "up", "down"]
"""The way a face looks: front +x, rear -x, left +y, right -y, up +z, down -z."""

DIRECTIONS: dict[Looks, Vector] = {
    "front": (1.0, 0.0, 0.0),
    "rear": (-1.0, 0.0, 0.0),
    "left": (0.0, 1.0, 0.0),
    "right": (0.0, -1.0, 0.0),
    "up": (0.0, 0.0, 1.0),
    "down": (0.0, 0.0, -1.0),
}

BoughtKind = Literal["cable gland", "connector", "bars and glands", "breather", "drain", "service disconnect"]
"""A connector is a housing that is bought whole, bars and glands are what goes into one that is made."""
StripKind = Literal[
    "hold-down",
    "hold-down bracket",
    "foot",
    "spreading plate",
    "disconnect cover",
    "stiffening bar",
    "doubler",
    "lifting lug",
    "cable housing",
    "housing cover",
    "housing block",
]


@dataclass(frozen=True)
class Cutout:
    """A hole through the tray, `at` [mm] on the outside of the wall or floor that looks this way.

    Round of `diameter` [mm], or where that is 0 a rectangle of `size` [mm], along the face and up (along x
    and y in a floor), its corners rounded by `corner` [mm]. `what` says what it is for.
    """

    what: str
    looks: Looks
    at: Vector
    diameter: float = 0.0
    size: Point = (0.0, 0.0)
    corner: float = 0.0


@dataclass(frozen=True)
class StripHole:
    """A round hole [mm] in a leg, from 0: how far along the fold, and across from where the leg begins."""

    leg: int
    along: float
    across: float
    diameter: float


@dataclass(frozen=True)
class Strip:
    """A strip of sheet, flat or folded square along lines that all run one way: plate, angle or channel.

    `start` [mm] is the corner of the outside from which `width` [mm] runs `along` the folds and the first leg
    runs its own way; each leg has its way and its outside length [mm], every fold turning to the same side.
    `inwards` is where the sheet's thickness lies from the outside of the first leg: the way the second leg
    goes, if there is one. `radius` [mm] is inside the folds. A flat `bar` is sawn to length, not cut from
    sheet. Both corners at the far end of a plate without folds are `rounded` [mm].
    """

    kind: StripKind
    name: str
    material: str
    thickness: float
    radius: float
    start: Vector
    along: Looks
    width: float
    legs: tuple[tuple[Looks, float], ...]
    inwards: Looks
    holes: tuple[StripHole, ...] = ()
    notes: tuple[str, ...] = ()
    bar: bool = False
    rounded: float = 0.0


@dataclass(frozen=True)
class Bought:
    """A part that is bought: where it sits, the way it looks, its body [mm], the room it needs outside [mm].

    `body` is the block that it fills outside of the box, `keeps` the block that must stay free for it (its
    cable's bend, a hand), the same as the body where it needs no more. `about` says what to order, `mass` is
    in [kg].
    """

    kind: BoughtKind
    name: str
    looks: Looks
    at: Vector
    body: Block
    keeps: Block
    about: str
    mass: float


@dataclass(frozen=True)
class Fastener:
    """Screws, nuts and the like of one sort: `thread` such as "M5 x 16", how many, and what for."""

    what: str
    thread: str
    count: int
    where: str


@dataclass(frozen=True)
class Fittings:
    """All that is fixed to one box. `notes` tell what could not be placed, and what would make room."""

    strips: tuple[Strip, ...] = ()
    bought: tuple[Bought, ...] = ()
    cutouts: tuple[Cutout, ...] = ()
    fasteners: tuple[Fastener, ...] = ()
    notes: tuple[str, ...] = ()


NO_FITTINGS = Fittings()
