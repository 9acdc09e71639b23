"""Room for a hand with an insulated spanner at a module's terminals, inside an open box.

The hand is taken as a round column `HAND` across that comes from above. Where on a face the terminals sit
is not known, so the best place of the face counts. Figures: common practice, no source.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Block, Vector
from boxfit.layout import PlacedModule
from boxfit.module import FACES, FaceRoom, Stance
from boxfit.surface import Outline

HAND = 60.0
"""Hand and insulated spanner across [mm]; common practice, no source."""
SWING = 150.0
"""What they need above a terminal face to swing [mm]; common practice, no source."""
PLACES = 25
"""Places tried along each side of a terminal face, its ends and its middle among them."""
HALVINGS = 20

Numbers = NDArray[np.float64]


@dataclass(frozen=True)
class TerminalFace:
    """A face with terminals: the module's own `name` for it, the axis it looks along, which way along it."""

    name: str
    axis: int
    sign: int

    @property
    def looks(self) -> str:
        """Where it looks in the car.

        >>> TerminalFace("top", 1, -1).looks
        'right'
        """
        return (("rear", "front"), ("right", "left"), ("down", "up"))[self.axis][self.sign > 0]


@dataclass(frozen=True)
class OpenTier:
    """What stands in the way of a hand: the walls, up to `rim` [mm], and the modules already in.

    `inside` [mm] is the outline of the room between them, liner and ledges taken off.
    """

    inside: Outline
    rim: float
    bodies: tuple[PlacedModule, ...]


def terminal_faces(stance: Stance, room: FaceRoom) -> tuple[TerminalFace, ...]:
    """The faces that keep room clear, turned as the module is; its top where none does."""
    faces: list[TerminalFace] = []
    for axis, looking in enumerate(stance.faces):
        pair = next(pair for pair in FACES if looking in pair)
        other = pair[0] if looking == pair[1] else pair[1]
        faces += [TerminalFace(looking, axis, 1), TerminalFace(other, axis, -1)]
    named = [face for face in faces if getattr(room, face.name) > 0.0]
    return tuple(named) or tuple(face for face in faces if face.name == "top")


def room_across(module: PlacedModule, face: TerminalFace, tier: OpenTier) -> float:
    """How wide [mm] a round column is free at the best place of the face, never told wider than `SWING`.

    Over a face that looks up it may stand anywhere on the face; beside one that looks sideways it touches
    it. A face that looks down cannot be reached.
    """
    if face.axis == 2:
        return _over(module, tier) if face.sign > 0 else 0.0
    return _beside(module, face, tier)


def _over(module: PlacedModule, tier: OpenTier) -> float:
    """Walls and modules that rise higher than the face stand round the column."""
    top = module.high[2]
    sides = [np.linspace(module.low[k], module.high[k], PLACES) for k in (0, 1)]
    places = np.stack(np.meshgrid(*sides, indexing="ij"), axis=-1).reshape(-1, 2)
    taller = [body for body in tier.bodies if body.high[2] > top + 1e-6 and near(module, body)]
    clear = _clear(places, taller, tier if tier.rim > top + 1e-6 else None)
    return float(min(2.0 * clear.max(), SWING))


def _beside(module: PlacedModule, face: TerminalFace, tier: OpenTier) -> float:
    """The widest column that touches the face; at any one place all narrower ones are free too."""
    along = 1 - face.axis
    line = np.linspace(module.low[along], module.high[along], PLACES)
    at = module.high[face.axis] if face.sign > 0 else module.low[face.axis]
    around = [body for body in tier.bodies if body.high[2] > module.low[2] and near(module, body)]
    free, wide = np.zeros(PLACES), np.full(PLACES, SWING / 2.0)
    for _ in range(HALVINGS):
        radius = (free + wide) / 2.0
        middles = np.empty((PLACES, 2))
        middles[:, along] = line
        middles[:, face.axis] = at + face.sign * radius
        fits = _clear(middles, around, tier) >= radius - 1e-9
        free, wide = np.where(fits, radius, free), np.where(fits, wide, radius)
    return float(2.0 * wide.max()) if wide.max() > 1e-3 else 0.0


def near(module: PlacedModule, other: PlacedModule) -> bool:
    """Whether the other stands so near in plan that it may matter."""
    return all(
        other.low[k] < module.high[k] + SWING and other.high[k] > module.low[k] - SWING for k in (0, 1)
    )


def _clear(places: Numbers, bodies: list[PlacedModule], walls: OpenTier | None) -> Numbers:
    """The distance in plan [mm] from every place to the nearest body or wall; below 0 behind a wall."""
    clear = np.full(len(places), SWING)
    if walls is not None:
        clear = np.minimum(clear, _inside(places, walls.inside))
    if bodies:
        low, high = (np.array([end[:2] for end in ends]) for ends in _ends(bodies))
        here = places[:, None, :]
        gap = np.maximum(np.maximum(low - here, here - high), 0.0)
        clear = np.minimum(clear, np.hypot(gap[..., 0], gap[..., 1]).min(axis=1))
    return clear


def _ends(bodies: list[PlacedModule]) -> tuple[list[Vector], list[Vector]]:
    """Low and high corners."""
    return [body.low for body in bodies], [body.high for body in bodies]


def _inside(places: Numbers, outline: Outline) -> Numbers:
    """The distance in plan [mm] from every place to the nearest side of the outline, below 0 outside."""
    nearest, within = np.full(len(places), np.inf), np.zeros(len(places), dtype=bool)
    for start, end in zip(outline, outline[1:] + outline[:1], strict=True):
        low, high = np.minimum(start, end), np.maximum(start, end)
        gap = np.maximum(np.maximum(low - places, places - high), 0.0)
        nearest = np.minimum(nearest, np.hypot(gap[:, 0], gap[:, 1]))
        if start[0] == end[0]:
            beside = (places[:, 1] >= low[1]) & (places[:, 1] < high[1])
            within ^= beside & (places[:, 0] < start[0])
    return np.where(within, nearest, -nearest)


def overhang(module: PlacedModule, inside: Outline) -> float:
    """By how much [mm] a module is too long or too near for walls, in plan; below 0 where it has room.

    So much less on every side, and it would stand free within the outline.
    """
    low, high = np.array(module.low[:2]), np.array(module.high[:2])
    sides = zip(inside, inside[1:] + inside[:1], strict=True)
    into = [
        float(np.minimum(np.maximum(start, end) - low, high - np.minimum(start, end)).min())
        for start, end in sides
    ]
    middle = float(_inside(((low + high) / 2.0)[np.newaxis], inside)[0])
    return max([*into, -middle])


def kept_clear(module: PlacedModule) -> tuple[tuple[int, int, Block], ...]:
    """Axis and sign of each face that keeps room clear, and the solid kept clear there at rest [mm]."""
    found = []
    for axis in range(3):
        for sign, room in ((-1, module.stance.room_low[axis]), (1, module.stance.room_high[axis])):
            if room > 0.0:
                low, high = list(module.low), list(module.high)
                if sign > 0:
                    low[axis], high[axis] = high[axis], high[axis] + room
                else:
                    low[axis], high[axis] = low[axis] - room, low[axis]
                found.append((axis, sign, Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))))
    return tuple(found)
