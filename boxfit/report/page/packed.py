"""The model as data in the page: corners in whole steps, everything as base64 in one JSON text."""

import json
from base64 import b64encode
from typing import Any

import numpy as np
from numpy.typing import NDArray

from boxfit.bay import Vector
from boxfit.report.page.shown import Facets, Line, Model, Shown

STEPS = 65_535
"""Steps from a form's lowest to its highest corner along each axis: 16 bits, 0.02 mm at 1.3 m."""

TURN = 25.0
"""Edges are drawn where the surface turns by more than this [degrees]; rounds stay without."""
ROUGH = 45.0
"""The same of what was measured, whose noise is no edge; nor are its rims."""


def packed(model: Model) -> str:
    """The JSON text that viewer.js reads, safe inside a script element; shared facets are one form."""
    places: dict[int, int] = {}
    forms: list[dict[str, Any]] = []
    for part in model.parts:
        if id(part.facets) not in places:
            places[id(part.facets)] = len(forms)
            forms.append(_form(part.facets))
    low, high = _extent(model)
    data = {
        "low": _figures(low),
        "high": _figures(high),
        "forms": forms,
        "parts": [_part(part, places[id(part.facets)]) for part in model.parts],
        "lines": [_line(line) for line in model.lines],
    }
    return json.dumps(data, separators=(",", ":")).replace("<", "\\u003c")


def _form(facets: Facets) -> dict[str, Any]:
    """Corners that fall on the same step become one; triangles that lose their area go."""
    low, high = facets.corners.min(axis=0), facets.corners.max(axis=0)
    step = np.maximum(high - low, 1e-6) / STEPS
    steps = np.rint((facets.corners - low) / step).astype(np.uint16)
    corners, member = np.unique(steps, axis=0, return_inverse=True)
    triangles = member.reshape(-1)[facets.triangles]
    first, second, third = triangles.T
    kept = triangles[(first != second) & (second != third) & (third != first)]
    wide = len(corners) > STEPS
    return {
        "low": _figures((float(low[0]), float(low[1]), float(low[2]))),
        "step": [float(f"{value:.9g}") for value in step],
        "corners": _text(corners.astype("<u2")),
        "triangles": _text(kept.astype("<u4" if wide else "<u2")),
        "edges": _text(sharp_edges(corners * step, kept, facets.rough).astype("<u4" if wide else "<u2")),
        "wide": wide,
    }


def sharp_edges(
    corners: NDArray[np.float64], triangles: NDArray[np.int64], rough: bool = False
) -> NDArray[np.int64]:
    """Pairs of corners between faces that turn by more than `TURN`, or with a face on one side only."""
    first, second, third = (corners[triangles[:, k]] for k in range(3))
    normals = np.cross(second - first, third - first)
    normals /= np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-12)
    sides = np.sort(
        np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]]), axis=1
    )
    owners = np.tile(np.arange(len(triangles)), 3)
    edges, member, counts = np.unique(sides, axis=0, return_inverse=True, return_counts=True)
    order = np.argsort(member.reshape(-1), kind="stable")
    starts = np.concatenate([[0], np.cumsum(counts)[:-1]])
    one = normals[owners[order[starts]]]
    other = normals[owners[order[starts + counts - 1]]]
    alike = np.einsum("ij,ij->i", one, other)
    turned = alike <= np.cos(np.radians(ROUGH if rough else TURN))
    if rough:
        turned &= alike > -np.cos(np.radians(ROUGH))  # folded back: a face measured twice
    found: NDArray[np.int64] = edges[((counts == 2) & turned) | ((counts != 2) & (not rough))]
    return found


def _part(part: Shown, form: int) -> dict[str, Any]:
    return {
        "name": part.name,
        "kind": part.kind,
        "group": part.group,
        "form": form,
        "colour": _figures(part.colour),
        "shift": _figures(part.shift),
        "push": _figures(part.push),
        "look": part.look,
    }


def _line(line: Line) -> dict[str, Any]:
    points = [_figures(point) for stroke in line.strokes for point in stroke]
    return {
        "name": line.name,
        "kind": line.kind,
        "group": "",
        "points": points,
        "colour": _figures(line.colour),
    }


def _extent(model: Model) -> tuple[Vector, Vector]:
    """The lowest and highest corner of every part, for the section."""
    lows = [part.facets.corners.min(axis=0) + part.shift for part in model.parts]
    highs = [part.facets.corners.max(axis=0) + part.shift for part in model.parts]
    x, y, z = (float(value) for value in np.min(lows, axis=0))
    right, left, top = (float(value) for value in np.max(highs, axis=0))
    return (x, y, z), (right, left, top)


def _figures(values: tuple[float, ...]) -> list[float]:
    """To a thousandth, so that noise of the sums does not show."""
    return [round(float(value), 3) + 0.0 for value in values]


def _text(values: NDArray[Any]) -> str:
    return b64encode(values.tobytes()).decode("ascii")
