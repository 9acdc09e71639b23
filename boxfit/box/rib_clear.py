"""Ribs of a printed tray make way for what goes through its walls and floor, and weigh less for it."""

from collections.abc import Iterator
from dataclasses import replace

from boxfit.bay import Block, Vector
from boxfit.box.cutouts import extent_on_face
from boxfit.box.fitting import Cutout
from boxfit.box.parts import BoxParts, Tray
from boxfit.weight.box_mass import PartMass

ROUND_IT = 10.0
"""Flat room [mm] round a cutout for the nut or flange behind it (common practice, no source)."""
LEAST_RIB = 10.0
"""A piece of rib shorter than this [mm] is left out."""
FACE_AXES = {"front": (1, 2), "rear": (1, 2), "left": (0, 2), "right": (0, 2), "up": (0, 1), "down": (0, 1)}
"""The axes along a face that looks so, in the order in which a cutout's size is told."""


def with_clear_ribs(parts: BoxParts) -> BoxParts:
    """The parts, the tray's ribs ended short of every cutout that they would stand behind."""
    tray = parts.tray
    ribs = tray.ribs
    for cutout in tray.cutouts if ribs else ():
        ribs = tuple(piece for rib in ribs for piece in _past(rib, _behind(cutout, tray)))
    return parts if ribs == tray.ribs else replace(parts, tray=replace(tray, ribs=ribs))


def _behind(cutout: Cutout, tray: Tray) -> Block:
    """The block behind a cutout that must be free: as deep as sheet and ribs, and a rim all round it."""
    deep = tray.thickness + max(min(high - low for low, high in _sides(rib)) for rib in tray.ribs)
    (left, below), (right, above) = extent_on_face(cutout)
    low, high = [at - deep for at in cutout.at], [at + deep for at in cutout.at]
    for axis, start, end in zip(FACE_AXES[cutout.looks], (left, below), (right, above), strict=True):
        low[axis], high[axis] = cutout.at[axis] + start - ROUND_IT, cutout.at[axis] + end + ROUND_IT
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _sides(block: Block) -> tuple[tuple[float, float], ...]:
    """From where to where [mm] along each axis."""
    return tuple(zip(block.low, block.high, strict=True))


def _past(rib: Block, free: Block) -> Iterator[Block]:
    """What of a rib stays outside a block, along the rib's length."""
    sides = _sides(rib)
    if any(
        high <= start or end <= low for (low, high), (start, end) in zip(sides, _sides(free), strict=True)
    ):
        yield rib
        return
    axis = max(range(3), key=lambda one: sides[one][1] - sides[one][0])
    low, high = sides[axis]
    for start, end in ((low, free.low[axis]), (free.high[axis], high)):
        if end - start >= LEAST_RIB:
            yield Block(_at(rib.low, axis, start), _at(rib.high, axis, end))


def _at(corner: Vector, axis: int, place: float) -> Vector:
    """A corner moved along one axis to a place [mm]."""
    x, y, z = (place if one == axis else value for one, value in enumerate(corner))
    return (x, y, z)


def less_ribs(whole: PartMass, ribs: tuple[Block, ...], tray: Tray, low: Vector) -> PartMass:
    """A tray's mass with the ribs it has, not `ribs`; centres count from `low` [mm], the low corner."""
    if ribs == tray.ribs or not whole.volume:
        return whole
    pieces = [(whole.volume, whole.centre)]
    pieces += [_moment(rib, low, -1.0) for rib in ribs] + [_moment(rib, low, 1.0) for rib in tray.ribs]
    volume = sum(piece for piece, _ in pieces)
    x, y, z = (sum(piece * centre[axis] for piece, centre in pieces) / volume for axis in range(3))
    return replace(whole, mass=whole.mass * volume / whole.volume, volume=volume, centre=(x, y, z))


def _moment(block: Block, low: Vector, sign: float) -> tuple[float, Vector]:
    """Volume [mm3] of a block, negative where it is taken away, and its middle [mm] from the box's corner."""
    (x, a), (y, b), (z, c) = _sides(block)
    middle = ((x + a) / 2.0 - low[0], (y + b) / 2.0 - low[1], (z + c) / 2.0 - low[2])
    return sign * (a - x) * (b - y) * (c - z), middle
