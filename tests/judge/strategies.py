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
