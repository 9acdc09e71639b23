"""The way in: the box goes straight through the opening without meeting anything."""

from collections.abc import Iterator

from boxfit.bay import Opening, Point, Prism, Room, Shell, Way
from boxfit.judge.distance import (
    Cuboid,
    Segment,
    inside_distance,
    least_shortfall,
    sides,
    sides_distance,
)
from boxfit.judge.finding import Finding
from boxfit.judge.places import PLAN, SURVEYED, Obstacle, SetBox, keepout_obstacle
from boxfit.judge.surface import closed_part, surface_distance

DIRECTIONS: dict[Way, tuple[int, int]] = {
    "front": (0, 1),
    "rear": (0, -1),
    "left": (1, 1),
    "right": (1, -1),
    "up": (2, 1),
    "down": (2, -1),
}
"""The axis of each way, and whether it leads up or down that axis; the box comes in from there."""
ACROSS = ((1, 2), (0, 2), (0, 1))
"""The two axes an opening's outline is drawn in, for a way along x, y and z."""


def judge_insertion(box: SetBox, opening: Opening) -> list[Finding]:
    """The box, moved straight out until wholly past the bay, meets nothing and fits the opening's outline.

    Keep-outs and walls are grown by the survey's tolerance, not by the clearance.
    """
    return _judge_way_in(box, box.place, box.taken, opening)


def judge_carried(box: SetBox, place: str, part: Cuboid, opening: Opening) -> list[Finding]:
    """The same of a part that is fixed to the box before it goes in, and goes as far as the box does."""
    return _judge_way_in(box, place, (part,), opening)


def _judge_way_in(box: SetBox, place: str, parts: tuple[Cuboid, ...], opening: Opening) -> list[Finding]:
    axis, sign = DIRECTIONS[opening.way]
    swept = _swept(box, parts, axis, sign)
    findings = []
    for obstacle in _in_the_way(box, axis, sign):
        figure = least_shortfall(swept, obstacle.measure, obstacle.needed)
        if figure is not None:
            text = f"{figure:.3f} mm from {obstacle.name} on the way in, {obstacle.needed:g} mm needed"
            findings.append(Finding("insertion", place, text, figure))
    if opening.outline is not None:
        outline, across, tolerance = opening.outline, ACROSS[axis], box.bay.tolerance
        figure = least_shortfall(parts, lambda part: inside_distance(part.across(across), outline), tolerance)
        if figure is not None:
            text = f"{figure:.3f} mm inside the outline of the opening, {tolerance:g} mm needed"
            findings.append(Finding("opening", place, text, figure))
    return findings


def sweep(box: SetBox, axis: int, sign: int) -> tuple[Cuboid, ...]:
    """The space each part passes through on its way out, until all of the box is past the bay."""
    return _swept(box, box.taken, axis, sign)


def _swept(box: SetBox, parts: tuple[Cuboid, ...], axis: int, sign: int) -> tuple[Cuboid, ...]:
    low, high = ends(box.bay.room, axis)
    plane = high if sign > 0 else low
    hindmost = (min if sign > 0 else max)(
        part.low[axis] if sign > 0 else part.high[axis] for part in box.taken
    )
    travel = max(0.0, (plane - hindmost) * sign) * sign
    behind, ahead = min(travel, 0.0), max(travel, 0.0)
    return tuple(part.spanning(axis, part.low[axis] + behind, part.high[axis] + ahead) for part in parts)


def ends(room: Room, axis: int) -> tuple[float, float]:
    """The first and the last level [mm] of the room along an axis."""
    if isinstance(room, Shell):
        return room.low[axis], room.high[axis]
    levels = [point[axis] for point in room.outline] if axis < 2 else [room.floor, room.top]
    return min(levels), max(levels)


def _in_the_way(box: SetBox, axis: int, sign: int) -> Iterator[Obstacle]:
    """Keep-outs, and the surfaces of the bay that the opening does not take."""
    room, tolerance = box.bay.room, box.bay.tolerance
    if isinstance(room, Prism):
        yield from _walls_in_the_way(room, axis, sign, tolerance)
    else:
        closed, needed = closed_part(room), tolerance + room.surface.off
        yield Obstacle(SURVEYED, "insertion", lambda block: surface_distance(block, closed, needed), needed)
    for keepout in box.bay.keepouts:
        yield keepout_obstacle(keepout, "insertion", tolerance)


def _walls_in_the_way(room: Prism, axis: int, sign: int, tolerance: float) -> Iterator[Obstacle]:
    """For a way along the ground the walls that are not the open side itself.

    Up and down the walls stand along the way: a box that keeps its distance in place keeps it all along.
    """
    if axis < 2:
        walls = closed_sides(room.outline, axis, sign)
        yield Obstacle(
            "walls", "insertion", lambda block: sides_distance(block.across(PLAN), walls), tolerance
        )


def closed_sides(outline: tuple[Point, ...], axis: int, sign: int) -> tuple[Segment, ...]:
    """The sides of a counter-clockwise outline, less the run that is the open side.

    Open is every unbroken run of sides that reaches the bay's last plane and faces the way, at most
    45 degrees off.

    >>> closed_sides(((0, 0), (9, 1), (9, 8), (0, 9)), 0, 1)
    (((0, 0), (9, 1)), ((9, 8), (0, 9)), ((0, 9), (0, 0)))
    """
    walls = sides(outline)
    last = max(point[axis] * sign for point in outline)
    facing = [_faces(wall, axis, sign) for wall in walls]
    is_open = [
        faces and max(wall[0][axis] * sign, wall[1][axis] * sign) == last
        for faces, wall in zip(facing, walls, strict=True)
    ]
    for step in (1, -1):
        for k in range(0, 2 * len(walls) * step, step):
            here = k % len(walls)
            is_open[here] = is_open[here] or (facing[here] and is_open[(here - step) % len(walls)])
    return tuple(wall for wall, is_free in zip(walls, is_open, strict=True) if not is_free)


def _faces(wall: Segment, axis: int, sign: int) -> bool:
    """True where a side of a counter-clockwise outline looks out along the way, at most 45 degrees off."""
    (ax, ay), (bx, by) = wall
    outward = (by - ay, ax - bx)
    return outward[axis] * sign >= abs(outward[1 - axis])
