"""Boxes with their solids, to be drawn."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from boxfit.box.whole import BuiltBox, built_boxes
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.sheet.drawing.marks import Drawing
from boxfit.sheet.drawing.write import drawings_of
from boxfit.solid.made import made_boxes
from boxfit.solid.write import placed_shape
from tests.box.samples import HERON, car_and_layout

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape


@dataclass(frozen=True, eq=False)
class Drawn:
    """A layout's boxes, their solids by name, and all drawings of them."""

    car: Car
    layout: Layout
    built: tuple[BuiltBox, ...]
    shapes: "Mapping[str, TopoDS_Shape]"
    drawings: tuple[Drawing, ...]

    def drawing(self, stem: str) -> Drawing:
        """The drawing of that stem."""
        return next(one for one in self.drawings if one.stem == stem)


def drawn(car: Car, module: Module, layout: Layout) -> Drawn:
    """Everything drawn of a layout."""
    built = built_boxes(car, module, layout)
    boxes = made_boxes(car, module, layout, built)
    shapes = {part.body.name: placed_shape(part.body) for box in boxes for part in box.parts}
    return Drawn(car, layout, built, shapes, tuple(drawings_of(car, module, layout, built, shapes)))


@cache
def sample() -> Drawn:
    """Two boxes in two bays."""
    car, layout = car_and_layout()
    return drawn(car, HERON, layout)
