"""How much room every face of every box has to spare, and how far out the survey may be.

Every box is taken in its place: its body (floor, walls and lid, with what is kept for stiffening bars) and
the slab of flange and lid around its rim. A face answers for what it looks at: the obstacles it comes nearer
to when moved outwards. Every obstacle lies ahead of some face, so the tightest is always told, and the floor
does not hide what stands beside a box.

Another box of the bay has a margin of its own where it is tighter than all that; how far the survey may be
out does not hang on it. The way in is no part of this: it keeps the survey's tolerance and nothing more.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from boxfit.bay import Bay, Block, BoxRules, Vector
from boxfit.car import Car
from boxfit.layout import Layout, PlacedBox
from boxfit.report.faces import BoxFace, Part, part_faces
from boxfit.report.obstacles import NEARER, Met, Obstacle, met_by, neighbours, passes, surveyed
from boxfit.report.parts import boxes_of
from boxfit.space.distance import Face, outwards

Place = tuple[str, int, Part, Face]
"""Bay, number of the box in it, part and face."""
SLACK = 0.001
"""A face this little [mm] short of what it is asked is not called short: rounding, far below any tape."""
WHAT_IF = 2.0
"""The survey's tolerance is doubled to see which faces are the first to suffer."""


@dataclass(frozen=True)
class Margin:
    """One face of a box and the obstacle that leaves it least beyond the allowance.

    `box` counts from 1 within its bay; `obstacle` is the keep-out's name, "wall", "floor", "top" or "box 2".
    `distance` [mm] is the shortest in space, from the face as a flat rectangle, 0 where they meet; `asked`
    [mm] is the allowance, the survey's tolerance included. The way leads from `at` on the face to `to` [mm].
    `surveyed` is False where the obstacle is another box. `name` tells the faces of a stepped box apart.
    """

    bay: str
    box: int
    part: Part
    face: Face
    obstacle: str
    distance: float
    asked: float
    at: Vector
    to: Vector
    surveyed: bool = True
    name: str = ""

    @property
    def called(self) -> str:
        """What the face is called."""
        return self.name or self.face

    @property
    def left(self) -> float:
        """What the distance has beyond the allowance [mm]; less than 0 where the allowance is not kept."""
        return self.distance - self.asked


def margins(car: Car, layout: Layout) -> tuple[Margin, ...]:
    """The tightest of the obstacles each face looks at: the one with the least `left`.

    Bays stand as in the car, then boxes, walls before flange, and faces in the order of `part_faces`; a face
    has a second margin where another box is tighter, and none where it looks at nothing but its own box.
    Meant for a layout the judge has passed: a solid that lies wholly inside a box meets no face of it.
    """
    return tuple(margin for bay in car.bays for margin in _of_bay(bay, boxes_of(layout, bay)))


@lru_cache(maxsize=16)
def _of_bay(bay: Bay, boxes: tuple[PlacedBox, ...]) -> tuple[Margin, ...]:
    """Once for these boxes, whatever else is told of their layout: its weights, its alternatives."""
    return tuple(_of_boxes(bay, boxes))


def _of_boxes(bay: Bay, boxes: tuple[PlacedBox, ...]) -> Iterator[Margin]:
    for number, box in enumerate(boxes, start=1):
        others = neighbours(bay, boxes, number)
        for part, face in part_faces(box, bay.box):
            yield from _of_face(bay, (bay.name, number, part, face.way), face, others)


def _of_face(bay: Bay, place: Place, face: BoxFace, others: tuple[Obstacle, ...]) -> Iterator[Margin]:
    """The margin of one face, and that to another box where it is tighter."""
    barred = place[2] == "walls" and (bay.box.bars_beside > 0.0 or bay.box.bars_below > 0.0)
    blocks = [_barred(block, bay.box, face) if barred else block for block in face.blocks]
    around = [met for block in blocks for met in met_by(face.way, block, surveyed(bay, block))]
    beside = [met for block in blocks for met in met_by(face.way, block, others) if met.kept <= 1.0 - NEARER]
    around, beside = ([met for met in found if not passes(met, face.ahead)] for found in (around, beside))
    name = "" if face.name == face.way else face.name
    told = [_tightest(place, met, surveyed) for met, surveyed in ((around, True), (beside, False)) if met]
    for one in told:
        if one is told[0] or one.left < told[0].left:
            yield replace(one, name=name)


def _barred(block: Block, rules: BoxRules, face: BoxFace) -> Block:
    """The block of a face of floor, walls or lid, with what stiffening bars take beside and below it."""
    out, below = rules.bars_beside, rules.bars_below
    low = [block.low[0] - out, block.low[1] - out, block.low[2] - below]
    high = [block.high[0] + out, block.high[1] + out, block.high[2]]
    axis, way = outwards(face.way)
    if block.low[axis] == block.high[axis]:  # a flat piece moves outwards and stays flat
        low[axis] = high[axis] = high[axis] if way > 0 else low[axis]
    return Block((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _tightest(place: Place, met: Sequence[Met], surveyed: bool) -> Margin:
    """The margin of the obstacle that leaves least; where several are equal but for noise, of the first."""
    least = min(met, key=lambda one: round(one.distance - one.asked, 6))
    way = least.way()
    return Margin(*place, least.name, least.distance, least.asked, way.at, way.to, surveyed)


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
        if (own := [margin for margin in found if margin.bay == bay.name and margin.surveyed])
    }


def fails_if_out(found: tuple[Margin, ...], car: Car, times: float = WHAT_IF) -> tuple[Margin, ...]:
    """The faces that lose some of their clearance where the survey is out by `times` its tolerance.

    A face fails where left + tolerance - error < 0, error being `times` the tolerance. The allowance holds
    the tolerance once, so in a sound layout none fails at `times` 1, nor anywhere if the tolerance is 0.
    """
    beyond = {bay.name: (times - 1.0) * bay.tolerance for bay in car.bays}
    return tuple(one for one in found if one.surveyed and one.left - beyond[one.bay] < -SLACK)
