"""Which holes of a surface are bridged, which are closed as the opening, and which are too many."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Way
from boxfit.surface import Reading, Surface
from boxfit.survey.edges import Edges, Numbers
from boxfit.survey.fault import SurveyError
from boxfit.survey.holes import Hole, fan, flat_patch, holes_in
from boxfit.survey.islands import parts_of
from boxfit.survey.winding import Winding, turned

SLIT = 1.0
"""A gap no wider than this [mm] is bridged, however long: sides that meet, but not corner to corner."""
_OUTERMOST = 0.05
"""Share of the extent along the opening's way within which a loop lies at its side."""
_STEEPEST = 0.7071
"""Cosine of the largest angle between a loop's plane and the opening's."""
_WAYS: dict[Way, tuple[int, float]] = {
    "up": (2, 1.0),
    "down": (2, -1.0),
    "front": (0, 1.0),
    "rear": (0, -1.0),
    "left": (1, 1.0),
    "right": (1, -1.0),
}
_NAMED = 3


@dataclass(frozen=True)
class Bridging:
    """What to bridge: gaps of up to `holes` [mm], and in a room whatever is open at the opening's side."""

    reads: Reading
    holes: float
    way: Way | None


@dataclass(frozen=True, eq=False)
class Bridged:
    """The surface with its patches at the end, the sheet of every triangle, and what was done."""

    surface: Surface
    sheet: Numbers
    told: tuple[str, ...]


def bridged(surface: Surface, edges: Edges, winding: Winding, rules: Bridging) -> Bridged:
    """The surface with its holes closed; a room's triangles also wind alike.

    Raises SurveyError for a hole in a room that is too large.
    """
    found = holes_in(surface, edges, winding.turn)
    small = [hole for hole in found if hole.size <= rules.holes or hole.width <= SLIT]
    large = [hole for hole in found if hole.size > rules.holes and hole.width > SLIT]
    opening: list[Hole] = []
    if rules.reads == "room":
        opening = [hole for hole in large if _at_opening(hole, surface, rules.way)]
        left = [hole for hole in large if not _at_opening(hole, surface, rules.way)]
        if left:
            raise _too_large(left, surface, rules)
        surface = Surface(surface.points, turned(surface.triangles, winding.turn))
    told = []
    if small:
        largest = max(hole.size for hole in small)
        told.append(f"{len(small)} gaps of up to {largest:.1f} mm bridged (holes = {rules.holes:g})")
    if opening:
        told.append("open at the opening's side, closed there")
    whole, sheet = _patched(surface, winding.sheet, small, opening)
    return Bridged(whole, sheet, tuple(told))


def _patched(
    surface: Surface, sheet: Numbers, small: list[Hole], flat: list[Hole]
) -> tuple[Surface, Numbers]:
    points, triangles, sheets = [surface.points], [surface.triangles], [sheet]
    count = len(surface.points)
    patches = [(hole, fan) for hole in small] + [(hole, flat_patch) for hole in flat]
    for hole, patch in patches:
        new_points, new_triangles = patch(hole, count)
        count += len(new_points)
        points.append(new_points)
        triangles.append(new_triangles)
        sheets.append(np.full(len(new_triangles), sheet[hole.beside]))
    return Surface(np.concatenate(points), np.concatenate(triangles)), np.concatenate(sheets)


def _at_opening(hole: Hole, surface: Surface, way: Way | None) -> bool:
    """Whether the loop lies at the outermost end along `way`, or looks that way with nothing beyond it."""
    if way is None:
        return False
    axis, sign = _WAYS[way]
    heights = surface.points[:, axis] * sign
    top, extent = float(heights.max()), float(np.ptp(heights))
    if float((hole.points[:, axis] * sign).min()) >= top - _OUTERMOST * extent:
        return True
    facing: NDArray[np.float64] = hole.facing * (1.0 if hole.facing[axis] * sign > 0 else -1.0)
    length = float(np.linalg.norm(facing))
    if length == 0.0 or facing[axis] * sign < _STEEPEST * length:
        return False
    beyond = float(((surface.points - hole.centre) @ (facing / length)).max())
    reached = float(((hole.points - hole.centre) @ (facing / length)).max())
    return beyond <= reached + _OUTERMOST * extent


def _too_large(left: list[Hole], surface: Surface, rules: Bridging) -> SurveyError:
    left = sorted(left, key=lambda hole: (-hole.size, *hole.centre.tolist()))
    parts = parts_of(surface)
    main = [hole for hole in left if parts.of[hole.beside] == parts.largest]
    if not main:
        size = max(float(parts.sizes[parts.of[hole.beside]]) for hole in left)
        return SurveyError(
            "file",
            f"has {_listed(left, 'a loose open piece')}",
            f"cut loose pieces off in the scanning program, or set strays = {_round_up(size)}",
        )
    opening = "" if rules.way else "say in [opening] way which side the box goes in from if that is it; "
    return SurveyError(
        "file",
        f"has {_listed(main, 'a hole')}",
        f"{opening}scan that place again, or set holes = {_round_up(main[0].size)} where a flat patch stands"
        " for the metal well enough",
    )


def _round_up(size: float) -> str:
    """The next ten [mm]."""
    return f"{10 * math.ceil(size / 10)}"


def _listed(holes: list[Hole], what: str) -> str:
    shown = [f"{what} of {hole.size:.0f} mm at ({_place(hole)})" for hole in holes[:_NAMED]]
    more = f" and {len(holes) - _NAMED} more" if len(holes) > _NAMED else ""
    return ", ".join(shown) + more


def _place(hole: Hole) -> str:
    return ", ".join(f"{value + 0.0:.0f}" for value in np.round(hole.centre))
