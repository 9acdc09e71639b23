"""What is fixed to the boxes of both demo cars stands in nothing else: cut, the solids share nothing."""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import combinations
from pathlib import Path

import pytest

from boxfit.box.whole import BuiltBox, built_boxes
from boxfit.files.together import read_together
from boxfit.layout import Layout
from boxfit.search.find import find_layout
from boxfit.solid.body import Body
from boxfit.solid.made import MadeBox, made_boxes
from boxfit.solid.shapes import shape_list

ROOT = Path(__file__).parents[2]
DEMOS = ("dunlin-850", "petrel-van")
SHARED = 1.0
"""More than this [mm3] in common is a clash."""
Box = tuple[float, float, float, float, float, float]


@cache
def made(car: str) -> tuple[tuple[BuiltBox, ...], tuple[MadeBox, ...]]:
    """The demo car's boxes, filled with the module of the README."""
    read, modules = read_together(ROOT / "bays" / car, [str(ROOT / "modules" / "heron-44.toml")])
    layout = find_layout(read, modules[0])
    assert isinstance(layout, Layout)
    built = built_boxes(read, modules[0], layout)
    return built, made_boxes(read, modules[0], layout, built)


def extent(body: Body) -> Box:
    """From and to along x, y and z [mm], where the body stands."""
    corners = body.form.mesh.corners
    low, high = corners.min(axis=0) + body.shift, corners.max(axis=0) + body.shift
    return (*map(float, low), *map(float, high))  # type: ignore[return-value]


def in_common(some: list[Body], others: list[Body]) -> float:
    """Volume [mm3] that two lots of bodies share, in one cut."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
    from OCP.BRepGProp import BRepGProp
    from OCP.gp import gp_Trsf, gp_Vec
    from OCP.GProp import GProp_GProps
    from OCP.TopLoc import TopLoc_Location

    lots = []
    for bodies in (some, others):
        shapes = []
        for body in bodies:
            move = gp_Trsf()
            move.SetTranslation(gp_Vec(*body.shift))
            shapes.append(body.form.shape.Moved(TopLoc_Location(move)))
        lots.append(shape_list(shapes))
    cut = BRepAlgoAPI_Common()
    cut.SetArguments(lots[0])
    cut.SetTools(lots[1])
    cut.Build()
    volume = GProp_GProps()
    BRepGProp.VolumeProperties_s(cut.Shape(), volume)
    return float(volume.Mass())


def near(one: Box, other: Box) -> bool:
    """Whether two extents share more than a face."""
    return all(one[k] < other[k + 3] - 1e-3 and other[k] < one[k + 3] - 1e-3 for k in range(3))


def clashes(box: MadeBox) -> Iterator[tuple[str, str, float]]:
    """Strips of a box that stand in another body of it."""
    strips = [part.body for part in box.parts if part.kind.startswith("hold-down") or part.kind == "foot"]
    others = [part.body for part in box.parts if part.body not in strips]
    others += [module.body for module in box.modules]
    extents = {body.name: extent(body) for body in (*strips, *others)}
    for other in others:
        close = [strip for strip in strips if near(extents[strip.name], extents[other.name])]
        if close and in_common(close, [other]) > SHARED:
            yield from _each(close, other)
    for one, other in combinations(strips, 2):
        if near(extents[one.name], extents[other.name]):
            yield from _each([one], other)


def _each(bodies: list[Body], other: Body) -> Iterator[tuple[str, str, float]]:
    """Which of several bodies stand in another one."""
    for body in bodies:
        shared = in_common([body], [other])
        if shared > SHARED:
            yield (body.name, other.name, round(shared, 1))


@pytest.mark.parametrize("car", DEMOS)
def test_strips_stand_in_nothing_else(car: str) -> None:
    """Tray with bends and ledges, lid, shelves, liner with its notches, modules, other strips."""
    _, boxes = made(car)
    assert sum(part.kind == "hold-down" for box in boxes for part in box.parts) >= 7
    assert [clash for box in boxes for clash in clashes(box)] == []


def test_a_strip_moved_is_found() -> None:
    """26 mm lower a bar stands in the modules."""
    _, boxes = made("dunlin-850")
    first = next(part for part in boxes[0].parts if part.kind == "hold-down")
    x, y, z = first.body.shift
    moved = replace(first, body=replace(first.body, shift=(x, y, z - 26.0)))
    parts = tuple(moved if part is first else part for part in boxes[0].parts)
    assert {name for name, _, _ in clashes(replace(boxes[0], parts=parts))} == {first.body.name}


@pytest.mark.parametrize("car", DEMOS)
def test_every_strip_weighs_the_same_by_all_ways(car: str) -> None:
    """Those that share a form with another too: closed form against the form's mesh, in its own place."""
    built, boxes = made(car)
    for one, box in zip(built, boxes, strict=True):
        strips = {strip.name: strip for strip in one.parts.fittings.strips}
        parts = [part for part in box.parts if part.body.name in strips]
        assert len(parts) == len(strips)
        for part in parts:
            assert part.body.form.mesh.volume == pytest.approx(part.closed_form.volume, rel=5e-3)
            around, start = extent(part.body), strips[part.body.name].start
            assert min(abs(a - b) for a, b in zip(around, start * 2, strict=True)) < 1e-3
