"""Which way triangles wind: neighbours alike, and closed parts with their outside out."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Surface
from boxfit.survey.areas import volumes_of
from boxfit.survey.edges import Edges, Flags, Numbers

_MOST_NESTED = 50
"""With more closed parts than this, none is looked for inside another."""


@dataclass(frozen=True, eq=False)
class Winding:
    """For each triangle its sheet, joined over edges of two, and whether to turn it to wind alike."""

    sheet: Numbers
    turn: Flags
    sheets: int


def alike(edges: Edges) -> Winding:
    """How neighbours come to wind alike; of two ways, the one that turns fewer of the sheet."""
    one, other = edges.pairs
    agree = edges.start(one) == edges.end(other)
    count, patch = _joined(len(edges.triangles), one[agree] // 3, other[agree] // 3)
    # Patches that wind alike are joined where they meet the wrong way round: each is a node for "as it is"
    # and one for "turned", so that a part is found twice, once each way.
    left, right = patch[one[~agree] // 3], patch[other[~agree] // 3]
    _, label = _joined(2 * count, np.r_[left, left + count], np.r_[right + count, right])
    as_is, turned = label[:count], label[count:]
    way = np.minimum(as_is, turned)
    turn = as_is > turned
    sizes = np.bincount(patch, minlength=count)
    sheets = int(label.max(initial=0)) + 1
    balance = np.bincount(way, np.where(turn, sizes, -sizes), minlength=sheets)
    turn ^= balance[way] > 0
    numbers, sheet = np.unique(way, return_inverse=True)
    return Winding(sheet[patch].astype(np.int64), turn[patch], len(numbers))


def _joined(count: int, one: Numbers, other: Numbers) -> tuple[int, Numbers]:
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    graph = coo_array((np.ones(len(one), dtype=np.int8), (one, other)), shape=(count, count))
    found, label = connected_components(graph.tocsr(), directed=False)
    return int(found), label.astype(np.int64)


def turned(triangles: Numbers, turn: Flags) -> Numbers:
    """The triangles, some of them turned."""
    if not turn.any():
        return triangles
    found = triangles.copy()
    found[turn] = found[turn][:, ::-1]
    return found


def inward(surface: Surface, sheet: Numbers, sheets: int) -> Flags:
    """Which sheets have their inside out: volume below zero, or above where they lie within an odd number."""
    volumes = np.bincount(sheet, volumes_of(surface), minlength=sheets)
    wrong: Flags = volumes < 0
    if 1 < sheets <= _MOST_NESTED:
        wrong ^= _nested(surface, sheet, sheets)
    return wrong


def _nested(surface: Surface, sheet: Numbers, sheets: int) -> Flags:
    """Which sheets lie within an odd number of others."""
    corners = [surface.points[surface.triangles[sheet == number]] for number in range(sheets)]
    lows = np.array([each.min(axis=(0, 1)) for each in corners])
    highs = np.array([each.max(axis=(0, 1)) for each in corners])
    found = np.zeros(sheets, dtype=np.bool_)
    for number in range(sheets):
        round_it = (lows < lows[number]).all(axis=1) & (highs > highs[number]).all(axis=1)
        for other in np.flatnonzero(round_it):
            found[number] ^= _turns_round(corners[other], corners[number][0].mean(axis=0))
    return found


def _turns_round(corners: NDArray[np.float64], point: NDArray[np.float64]) -> bool:
    """Whether a closed sheet goes round a point: its triangles fill the view from there.

    Solid angle of a triangle: A. van Oosterom, J. Strackee, IEEE Trans. Biomed. Eng. 30 (1983) 125
    (from memory).
    """
    a, b, c = (corners[:, k] - point for k in range(3))
    la, lb, lc = (np.linalg.norm(each, axis=1) for each in (a, b, c))
    over = np.einsum("ij,ij->i", a, np.cross(b, c))
    under = la * lb * lc + (a * b).sum(1) * lc + (b * c).sum(1) * la + (c * a).sum(1) * lb
    return abs(float(np.arctan2(over, under).sum())) > math.pi
