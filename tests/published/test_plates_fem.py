"""The plate formulas against finite elements (scikit-fem): floors and walls of the demo cars, linear theory.

Bogner-Fox-Schmit elements of a Kirchhoff plate, Poisson's ratio 0.3; the difference is told with -s.
"""

from typing import Any

import numpy as np
import pytest
from skfem import Basis, BilinearForm, ElementQuadBFS, LinearForm, MeshQuad, condense, solve
from skfem.helpers import dd, ddot, eye, trace

from boxfit.standards.plates import Edges, plate

POISSON, MODULUS, PRESSURE = 0.3, 70000.0, 0.01
PANELS = {
    "Dunlin front floor": ((323.0, 374.0), 2.5),
    "Dunlin rear floor": ((476.0, 731.0), 2.5),
    "Petrel floor under the load floor": ((730.0, 781.0), 2.0),
    "Petrel tail floor": ((372.0, 780.0), 1.5),
    "Dunlin rear front wall": ((731.0, 145.8), 2.5),
}
"""Sides and thickness [mm] of panels as built with Heron 44."""


def by_elements(
    size: tuple[float, float], thickness: float, edges: Edges, parts: int = 16
) -> tuple[float, float]:
    """Stress [MPa] and sag [mm]: the stress at the middle where supported, at the long edge where clamped."""
    long, short = max(size), min(size)
    stiff = MODULUS * thickness**3 / (12.0 * (1.0 - POISSON**2))
    mesh = MeshQuad.init_tensor(np.linspace(0.0, long, parts + 1), np.linspace(0.0, short, parts + 1))
    basis = Basis(mesh, ElementQuadBFS())

    def bending(u: Any, v: Any, _: Any) -> Any:
        bent = stiff * ((1.0 - POISSON) * dd(u) + POISSON * eye(trace(dd(u)), 2))
        return ddot(bent, dd(v))

    def pressed(v: Any, _: Any) -> Any:
        return PRESSURE * v

    fixed = []
    for axis, along in ((0, "u_y"), (1, "u_x")):
        for end in (0.0, (long, short)[axis]):
            nodes = basis.get_dofs(lambda x, axis=axis, end=end: np.isclose(x[axis], end))
            fixed.append(
                nodes.all(["u", along]) if edges == "supported" else nodes.all(["u", "u_x", "u_y", "u_xy"])
            )
    found = solve(
        *condense(
            BilinearForm(bending).assemble(basis),
            LinearForm(pressed).assemble(basis),
            D=np.unique(np.concatenate(fixed)),
        )
    )
    middle = np.flatnonzero(np.isclose(mesh.p[0], long / 2.0) & np.isclose(mesh.p[1], short / 2.0))
    sag = found[basis.nodal_dofs[0, middle]].item()
    at = np.array([[long / 2.0], [short / 2.0 if edges == "supported" else 1e-6 * short]])
    curved = _curvature(basis, found, at)
    moment = stiff * abs(curved[1] + POISSON * curved[0])
    return 6.0 * moment / thickness**2, sag


def _curvature(basis: Basis, found: Any, at: Any) -> tuple[float, float]:
    """Second derivatives along x and y at a place inside the mesh."""
    cell = basis.mesh.element_finder()(at[0], at[1])
    local = basis.mesh.mapping().invF(at[:, :, None], cell)
    inside = Basis(basis.mesh, basis.elem, elements=cell, quadrature=(local[:, 0, :], np.ones(1)))
    second = dd(inside.interpolate(found))
    return float(second[0, 0].item()), float(second[1, 1].item())


@pytest.mark.parametrize("edges", ["supported", "clamped"])
@pytest.mark.parametrize("name", PANELS)
def test_formula_against_elements(name: str, edges: Edges) -> None:
    size, thickness = PANELS[name]
    stress, sag = by_elements(size, thickness, edges)
    bent = plate(size, thickness, PRESSURE, MODULUS, edges)
    off = (bent.stress / stress - 1.0, bent.sag / sag - 1.0)
    print(f"{name}, {edges}: stress {100 * off[0]:+.2f} %, sag {100 * off[1]:+.2f} %")
    assert abs(off[0]) < 0.02
    assert abs(off[1]) < 0.02


def test_elements_agree_with_the_series() -> None:
    """A square plate by Navier's series, 0.0444 q a^4 / (E t^3) by Roark: the reference is itself right."""
    stress, sag = by_elements((400.0, 400.0), 2.0, "supported")
    assert sag == pytest.approx(0.04436 * PRESSURE * 400.0**4 / (MODULUS * 8.0), rel=2e-3)
    assert stress == pytest.approx(0.2874 * PRESSURE * 400.0**2 / 4.0, rel=5e-3)
