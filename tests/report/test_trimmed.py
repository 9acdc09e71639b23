"""Rough outlines of a scanned room, cut back to what its triangles cover."""

import numpy as np
import pytest
from shapely import Polygon

from boxfit.report.silhouette import EXACT, trimmed
from boxfit.surface import Outline, Surface

AXES = ((0, 1), (1, 1))


def _sheet(width: float, depth: float, cells: int) -> Surface:
    """A flat sheet of many triangles from the origin [mm]."""
    x, y = np.meshgrid(np.linspace(0.0, width, cells + 1), np.linspace(0.0, depth, cells + 1), indexing="ij")
    number = np.arange((cells + 1) ** 2).reshape(cells + 1, cells + 1)
    a, b, c, d = (n.ravel() for n in (number[:-1, :-1], number[1:, :-1], number[1:, 1:], number[:-1, 1:]))
    triangles = np.concatenate([np.stack([a, b, c], axis=1), np.stack([a, c, d], axis=1)])
    return Surface(np.stack([x.ravel(), y.ravel(), 0.0 * x.ravel()], axis=1), triangles)


def _around(low: float, width: float, depth: float) -> tuple[Outline, ...]:
    return (((low, low), (width, low), (width, depth), (low, depth)),)


def test_a_rough_outline_is_cut_back_to_the_scan() -> None:
    sheet = _sheet(700.0, 500.0, 40)
    assert len(sheet.triangles) > EXACT
    (found,) = trimmed(sheet, _around(-8.0, 708.0, 508.0), AXES, 3.0)
    assert len(found) <= 8
    assert Polygon(found).bounds == pytest.approx((0.0, 0.0, 700.0, 500.0), abs=1.5)


def test_room_well_outside_the_triangles_stays() -> None:
    (found,) = trimmed(_sheet(700.0, 500.0, 40), _around(0.0, 800.0, 500.0), AXES, 3.0)
    assert Polygon(found).area == pytest.approx(800.0 * 500.0, rel=0.01)


def test_few_triangles_need_no_cutting() -> None:
    rough = _around(-8.0, 708.0, 508.0)
    assert trimmed(_sheet(700.0, 500.0, 2), rough, AXES, 3.0) is rough
