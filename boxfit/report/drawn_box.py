"""What a box shows in a view: its outline, and the edges of its steps, seen or hidden."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from boxfit.report.bands import FINE, Band, settled
from boxfit.report.faces import stepped_faces
from boxfit.report.projection import View, rectangle
from boxfit.space.distance import outwards
from boxfit.surface import Outline

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


CLOSE = 0.01
"""An edge this near [mm] to the rim of what is before it is still seen."""


@dataclass(frozen=True)
class Drawn:
    """A box in a view [mm of the car]: its outline, counter-clockwise, and lines inside it."""

    outline: Outline
    edges: tuple[Outline, ...] = ()
    hidden: tuple[Outline, ...] = ()


@lru_cache(maxsize=256)
def drawn_box(view: View, bands: tuple[Band, ...]) -> Drawn:
    """What bands on top of one another show: walls that look at the reader hide what lies behind them."""
    if len(bands) == 1 and len(bands[0].outline) == 4:
        block = bands[0].blocks[0]
        return Drawn(rectangle(view, block.low, block.high))
    from shapely import union_all

    faces = tuple(_faces(view, bands))
    whole = union_all([shape for _, _, shape in faces])
    edges = union_all([shape.boundary for _, _, shape in faces]).difference(whole.boundary)
    seen: list[BaseGeometry] = []
    for nearness, towards, shape in faces:
        if towards:
            nearer = union_all([other for near, looks, other in faces if looks and near > nearness])
            seen.append(shape.boundary.difference(whole.boundary).difference(nearer.buffer(-CLOSE)))
    visible = union_all(seen)
    return Drawn(_corners(whole), _lines(visible), _lines(edges.difference(visible)))


def _faces(view: View, bands: Sequence[Band]) -> Iterator[tuple[float, bool, BaseGeometry]]:
    """The faces seen square on: how near they are, whether they look at the reader, and what they cover."""
    from shapely import Polygon, union_all

    axis, sign = view.nearer
    levels: dict[tuple[float, bool], list[Polygon]] = {}
    for face in stepped_faces(bands):
        if outwards(face.way)[0] == axis:
            for block in face.blocks:
                key = (round(block.low[axis] * sign, FINE), outwards(face.way)[1] == sign)
                levels.setdefault(key, []).append(Polygon(rectangle(view, block.low, block.high)))
    for (nearness, towards), shapes in levels.items():
        yield nearness, towards, union_all(shapes)


def _corners(whole: BaseGeometry) -> Outline:
    """The corners of an outline, those on a straight side left out."""
    from shapely.geometry.polygon import orient

    outline = orient(whole.simplify(0.0).normalize())
    return settled(tuple((float(x), float(y)) for x, y in list(outline.exterior.coords)[:-1]))


def _lines(shape: BaseGeometry) -> tuple[Outline, ...]:
    """The straight pieces of lines, in a fixed order; points are left out."""
    from shapely import line_merge, node

    merged = line_merge(node(shape)) if not shape.is_empty else shape
    lines = [one for one in getattr(merged, "geoms", [merged]) if one.length > 0.0]
    found = [tuple((float(x), float(y)) for x, y in one.simplify(0.0).coords) for one in lines]
    return tuple(sorted(max(one, one[::-1]) for one in found))
