"""What the turnable model is made of: triangles, parts that show them somewhere, and lines."""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Vector

Colour = tuple[float, float, float, float]
"""Red, green, blue in linear light and opacity, 0 to 1."""
Kind = Literal["bay", "keep-out", "opening", "car lines"]
"""What a car brings along; parts of boxes have the kinds of the parts list."""

Look = Literal["solid", "room", "skin"]
"""A solid; a closed room, seen from within; or a skin that bounds nothing, seen from both sides."""

STAYS: Vector = (0.0, 0.0, 0.0)


@dataclass(frozen=True, eq=False)
class Facets:
    """Triangles as rows of three corner numbers, outside anti-clockwise; corners [mm], shape (n, 3).

    `rough` is what was measured: of its edges only those that stand out are drawn.
    """

    corners: NDArray[np.float64]
    triangles: NDArray[np.int64]
    rough: bool = False


@dataclass(frozen=True)
class Shown:
    """Facets in their place in the car, moved by `shift` [mm] from where they were made.

    `group` is the box it belongs to, empty where it belongs to none. `push` [mm] is how far it moves where
    the view is exploded in full.
    """

    name: str
    kind: str
    group: str
    facets: Facets
    colour: Colour
    shift: Vector = STAYS
    push: Vector = STAYS
    look: Look = "solid"


@dataclass(frozen=True)
class Line:
    """Straight strokes, each between two points [mm] of the car."""

    name: str
    kind: Kind
    strokes: tuple[tuple[Vector, Vector], ...]
    colour: Colour


@dataclass(frozen=True)
class Label:
    """Words at a place [mm] of the car."""

    words: str
    at: Vector


@dataclass(frozen=True)
class Model:
    """All that can be turned."""

    parts: tuple[Shown, ...]
    lines: tuple[Line, ...]
    labels: tuple[Label, ...]
