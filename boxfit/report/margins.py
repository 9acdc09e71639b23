"""How much room every face of every box has to spare, and how far out the survey may be.

Every box is taken in its place: its body (floor, walls and lid) and the slab of flange and lid around its
rim. A face answers for what it looks at: the obstacles it comes nearer to when moved outwards. Every obstacle
lies ahead of some face, so the tightest is always told, and the floor does not hide what stands beside a box.

What boxes of one bay keep from each other and the way in are no part of this: the first does not hang on the
survey, and the way in keeps the survey's tolerance and nothing more.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache, partial
from typing import Literal

from boxfit.bay import Bay, Block
from boxfit.car import Car
from boxfit.layout import Layout, PlacedBox
from boxfit.report.parts import boxes_of, flange_block
from boxfit.space.distance import FACES, Face, face_of, is_inside, side_distance, solid_distance
from boxfit.space.free import edges_of

Part = Literal["walls", "flange"]
Measure = Callable[[Block], float]
"""The shortest distance [mm] of a block to something that stays where it is."""

MOVED = 0.1
NEARER = 0.01
"""Moved out by `MOVED` of the distance, a face is nearer by `NEARER` of it or more to what it looks at.

That is so where the shortest way leads out of the face's plane by some 9 degrees. The shortest way from a box
to anything leads out of one of its faces by 35 degrees at least, as the diagonal of a cube does. A face that
looks at nothing, down a long wedge, answers for what it comes nearer to soonest.
"""

SLACK = 0.001
"""A face this little [mm] short of what it is asked is not called short: rounding, far below any tape."""
WHAT_IF = 2.0
"""The survey's tolerance is doubled to see which faces are the first to suffer."""


@dataclass(frozen=True)
class Margin:
    """One face of a box and the obstacle that leaves it least beyond the allowance.

    `box` counts from 1 within its bay; `obstacle` is the keep-out's name, "wall", "floor" or "top".
    `distance` [mm] is the shortest in space, from the face as a flat rectangle, 0 where they meet; `asked`
    [mm] is the allowance, the survey's tolerance included.
    """

    bay: str
    box: int
    part: Part
    face: Face
    obstacle: str
    distance: float
    asked: float

    @property
    def left(self) -> float:
        """What the distance has beyond the allowance [mm]; less than 0 where the allowance is not kept."""
        return self.distance - self.asked


@lru_cache(maxsize=8)
def margins(car: Car, layout: Layout) -> tuple[Margin, ...]:
    """The tightest of the obstacles each face looks at: the one with the least `left`.

    Bays stand as in the car, then boxes, walls before flange, and faces in the order of `FACES`. Meant for a
    layout the judge has passed: a solid that lies wholly inside a box meets no face of it.
    """
    return tuple(
        _margin(bay, number, part, block, face)
        for bay in car.bays
        for number, box in enumerate(boxes_of(layout, bay), start=1)
        for part, block in _parts(bay, box)
        for face in FACES
    )


def _parts(bay: Bay, box: PlacedBox) -> Iterator[tuple[Part, Block]]:
    """Body and slab of a box; the body alone where there is no flange."""
    yield "walls", Block(box.low, box.high)
    if bay.box.flange > 0.0:
        slab = flange_block(box, bay.box)
        yield "flange", Block(slab.low, slab.high)


def _margin(bay: Bay, number: int, part: Part, block: Block, face: Face) -> Margin:
    """The least left of what the face looks at."""
    found: list[tuple[float, Margin]] = []
    for name, measure, asked in _obstacles(bay, block):
        distance = measure(face_of(block, face))
        moved = measure(face_of(block, face, MOVED * distance))
        kept = moved / distance if distance > 0.0 else 0.0
        found.append((kept, Margin(bay.name, number, part, face, name, distance, asked)))
    most = max(1.0 - NEARER, min(kept for kept, _ in found))
    ahead = [margin for kept, margin in found if kept <= most]
    return min(ahead, key=lambda margin: round(margin.left, 6))  # equal but for noise: the first


def _obstacles(bay: Bay, block: Block) -> Iterator[tuple[str, Measure, float]]:
    """Name, distance and allowance [mm] of everything the block keeps away from; each of them convex."""
    room = bay.room
    if not is_inside(block, room.outline):
        yield "wall", lambda _: 0.0, bay.distance
    for side in edges_of(room.outline):
        yield "wall", partial(side_distance, side=side), bay.distance
    yield "floor", lambda flat: max(flat.low[2] - room.floor, 0.0), bay.distance
    yield "top", lambda flat: max(room.top - flat.high[2], 0.0), bay.distance
    for keepout in bay.keepouts:
        yield keepout.name, partial(solid_distance, solid=keepout.solid), keepout.distance


def survives(found: tuple[Margin, ...], car: Car) -> dict[str, float]:
    """The largest survey error [mm] that leaves every box of a bay its clearance, by the bay's name.

    A survey out by an error puts any surface nearer to the box by no more than that error. The allowance is
    clearance plus tolerance, so a face keeps its clearance as long as

        error <= left + tolerance

    and the bay as long as its tightest face does. Never below 0. Bays without boxes are left out.
    """
    return {
        bay.name: max(0.0, bay.tolerance + min(margin.left for margin in own))
        for bay in car.bays
        if (own := [margin for margin in found if margin.bay == bay.name])
    }


def fails_if_out(found: tuple[Margin, ...], car: Car, times: float = WHAT_IF) -> tuple[Margin, ...]:
    """The faces that lose some of their clearance where the survey is out by `times` its tolerance.

    A face fails where left + tolerance - error < 0, error being `times` the tolerance. The allowance holds
    the tolerance once, so in a sound layout none fails at `times` 1, nor anywhere if the tolerance is 0.
    """
    beyond = {bay.name: (times - 1.0) * bay.tolerance for bay in car.bays}
    return tuple(margin for margin in found if margin.left - beyond[margin.bay] < -SLACK)
