"""Flats folded up again, by walking the sheet's faces over its bends: knows nothing of how they were made."""

from dataclasses import dataclass

from boxfit.bay import Point, Vector
from boxfit.sheet.flat import Bend, Flat
from boxfit.sheet.outline import points_of


@dataclass(frozen=True)
class Face:
    """Where a point of the sheet lies in the section: its far face, and the way to the face that is seen."""

    out: float
    up: float
    towards: Point


def walked(thickness: float, bends: list[tuple[float, Bend]], reach: float) -> Face:
    """From the sheet's far face at (0, 0), running outwards, over right-angled bends to `reach` [mm].

    Every bend has how far along its middle is. Folds up turn towards the seen face, about a point that is the
    inside radius from it; folds down about one that far from the far face.
    """
    x, y, along, seen = 0.0, 0.0, (1.0, 0.0), (0.0, 1.0)
    passed = 0.0
    for middle, bend in bends:
        before = middle - bend.allowance / 2.0
        if reach <= before:
            break
        assert reach >= middle + bend.allowance / 2.0 - 1e-6, "a point within a bend"
        x, y = x + (before - passed) * along[0], y + (before - passed) * along[1]
        lever = thickness + bend.radius if bend.up else -bend.radius
        x, y = x + lever * seen[0], y + lever * seen[1]
        along, seen = (seen, (-along[0], -along[1])) if bend.up else ((-seen[0], -seen[1]), along)
        x, y = x - lever * seen[0], y - lever * seen[1]
        passed = before + bend.allowance
    rest = reach - passed
    return Face(x + rest * along[0], y + rest * along[1], seen)


def arms_of(flat: Flat, base: Point) -> dict[tuple[int, int], list[tuple[float, Bend]]]:
    """The bends that follow each other outwards, by axis and direction, each with how far [mm] out it is."""
    arms: dict[tuple[int, int], list[tuple[float, Bend]]] = {}
    for bend in flat.bends:
        axis = 0 if abs(bend.start[0] - bend.end[0]) < 1e-6 else 1
        far = bend.start[axis] - base[axis]
        arms.setdefault((axis, 1 if far > 0.0 else -1), []).append((abs(far), bend))
    return {way: sorted(arm, key=lambda one: one[0]) for way, arm in arms.items()}


def arm_of(flat: Flat, base: Point, point: Point) -> tuple[int, int] | None:
    """Along which axis, and which way, a point is folded; None where it stays with the base."""
    past = {
        (axis, sign): sign * (point[axis] - base[axis]) - arm[0][0]
        for (axis, sign), arm in arms_of(flat, base).items()
    }
    way = max(past, key=lambda one: past[one], default=None)
    return way if way and past[way] > 0.0 else None


def folded(flat: Flat, base: Point, point: Point) -> tuple[Vector, Vector]:
    """Where a point's far and seen faces lie once folded, counted from the base, which stays put."""
    x, y = point[0] - base[0], point[1] - base[1]
    way = arm_of(flat, base, point)
    if way is None:
        return (x, y, 0.0), (x, y, flat.thickness)
    axis, sign = way
    reach, along = ((x, y), (y, x))[axis]
    face = walked(flat.thickness, arms_of(flat, base)[way], abs(reach))
    out, (seen_out, seen_up) = face.out, face.towards
    ends = [(out, face.up), (out + flat.thickness * seen_out, face.up + flat.thickness * seen_up)]
    places = [(sign * far, along, up) if axis == 0 else (along, sign * far, up) for far, up in ends]
    return places[0], places[1]


def folded_points(flat: Flat, base: Point) -> list[Vector]:
    """Both faces of the base, and of every point of the outer contour that is not within a bend."""
    found: list[Vector] = [*folded(flat, base, base)]
    for point in points_of(flat.contours[0]):
        if not within_a_bend(flat, base, point):
            found += folded(flat, base, point)
    return found


def within_a_bend(flat: Flat, base: Point, point: Point) -> bool:
    """Whether a point of the flat is on sheet that a bend uses up."""
    return any(
        abs(sign * (point[axis] - base[axis]) - far) < bend.allowance / 2.0 - 1e-6
        for (axis, sign), arm in arms_of(flat, base).items()
        if arm_of(flat, base, point) in (None, (axis, sign))
        for far, bend in arm
    )


def size_of(points: list[Vector]) -> Vector:
    """The extent [mm] along each axis."""
    x, y, z = (max(values) - min(values) for values in zip(*points, strict=True))
    return (x, y, z)
