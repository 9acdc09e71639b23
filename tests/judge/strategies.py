"""Blocks, bars and outlines for the judge's own geometry."""

from math import cos, dist, pi, sin

from hypothesis import strategies as st

from boxfit.bay import Cylinder, Point, Vector
from boxfit.judge.distance import Cuboid, Rectangle

places = st.floats(-800.0, 800.0, allow_nan=False).map(lambda value: round(value, 3))
lengths = st.floats(0.5, 600.0).map(lambda value: round(value, 3))
vectors: st.SearchStrategy[Vector] = st.tuples(places, places, places)


@st.composite
def cuboids(draw: st.DrawFn) -> Cuboid:
    x, y, z = draw(vectors)
    return Cuboid((x, y, z), (x + draw(lengths), y + draw(lengths), z + draw(lengths)))


@st.composite
def bars(draw: st.DrawFn) -> Cylinder:
    """Round bars; every other one along an axis."""
    start, end = draw(vectors), draw(vectors)
    axis = draw(st.sampled_from([0, 1, 2, None, None, None]))
    if axis is not None:
        x, y, z = (end[k] if k == axis else start[k] for k in range(3))
        end = (x, y, z)
    if dist(start, end) < 1.0:
        end = (end[0], end[1], end[2] + 5.0)
    return Cylinder(start, end, draw(st.floats(1.0, 300.0)))


@st.composite
def rectangles(draw: st.DrawFn) -> Rectangle:
    block = draw(cuboids())
    return block.across((0, 1))


@st.composite
def outlines(draw: st.DrawFn) -> tuple[Point, ...]:
    """Outlines seen whole from the origin, mostly with corners that point inwards."""
    reaches = draw(st.lists(st.floats(50.0, 1000.0), min_size=3, max_size=9))
    turns = [2.0 * pi * number / len(reaches) for number in range(len(reaches))]
    return tuple((reach * cos(turn), reach * sin(turn)) for reach, turn in zip(reaches, turns, strict=True))


@st.composite
def triangles(draw: st.DrawFn) -> tuple[Vector, Vector, Vector]:
    """Triangles of any shape; now and then square to an axis, or no more than a line or a point."""
    one, two, three = draw(vectors), draw(vectors), draw(vectors)
    axis = draw(st.sampled_from([0, 1, 2, None, None, None]))
    if axis is not None:
        two, three = (_levelled(corner, axis, one[axis]) for corner in (two, three))
    return draw(st.sampled_from([(one, two, three)] * 8 + [(one, two, two), (one, one, one)]))


def _levelled(point: Vector, axis: int, level: float) -> Vector:
    x, y, z = (level if k == axis else point[k] for k in range(3))
    return (x, y, z)


@st.composite
def convex_outlines(draw: st.DrawFn) -> tuple[Point, ...]:
    """Counter-clockwise outlines with all their corners on an ellipse."""
    turns = sorted(draw(st.sets(st.integers(0, 35), min_size=3, max_size=8)))
    along, across = draw(st.floats(300.0, 700.0)), draw(st.floats(300.0, 700.0))
    return tuple((along * cos(turn * pi / 18), across * sin(turn * pi / 18)) for turn in turns)


@st.composite
def quarter_blocks(draw: st.DrawFn, most: int = 1600) -> Cuboid:
    """Blocks round the origin, or near it, with corners on whole quarters of a millimetre."""
    x, y, z = (draw(st.integers(120, most)) / 4 for _ in range(3))
    a, b, c = (draw(st.one_of(st.just(0), st.integers(-most, most))) / 4 for _ in range(3))
    (x, low_x), (y, low_y), (z, low_z) = ((side, at - side / 2) for side, at in ((x, a), (y, b), (z, c)))
    return Cuboid((low_x, low_y, low_z), (low_x + x, low_y + y, low_z + z))


@st.composite
def square_outlines(draw: st.DrawFn) -> tuple[Point, ...]:
    """Counter-clockwise outlines with sides square to the axes: one to four columns side by side, or rows."""
    cuts = draw(st.lists(st.integers(-60, 60), min_size=2, max_size=5, unique=True).map(sorted))
    columns: list[tuple[int, int]] = []
    for _ in cuts[1:]:
        low, high = columns[-1] if columns else (-50, 50)
        low, high = draw(st.integers(-80, high - 1)), draw(st.integers(low + 1, 80))
        columns.append((min(low, high - 1), max(low + 1, high)))
    ends = list(zip(cuts[:-1], cuts[1:], columns, strict=True))
    below = [(x, low) for rear, front, (low, _) in ends for x in (rear, front)]
    above = [(x, high) for rear, front, (_, high) in reversed(ends) for x in (front, rear)]
    corners = _without_straight_ones(below + above)
    if draw(st.booleans()):
        corners = [(y, x) for x, y in reversed(corners)]
    return tuple((float(x), float(y)) for x, y in corners)


def _without_straight_ones(points: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """The points of an outline less those that are double or on a straight side."""
    kept = [here for k, here in enumerate(points) if here != points[k - 1]]
    around = zip(kept[-1:] + kept[:-1], kept, kept[1:] + kept[:1], strict=True)
    return [
        here
        for before, here, after in around
        if not any(before[axis] == here[axis] == after[axis] for axis in range(2))
    ]
