"""Plates against Roark's table, against Navier's and Levy's series, and beyond linear theory (facts, 5)."""

from math import pi, sin

import pytest

from boxfit.standards.plates import (
    CLAMPED,
    SUPPORTED,
    Edges,
    coefficients,
    plate,
    strip_held_at_ends,
    yield_line_pressure,
)

POISSON = 0.3
ROARK = [
    (1.0, 0.2874, 0.0444),
    (1.2, 0.3762, 0.0616),
    (1.4, 0.4530, 0.0770),
    (1.6, 0.5172, 0.0906),
    (2.0, 0.6102, 0.1110),
    (3.0, 0.7134, 0.1335),
    (4.0, 0.7410, 0.1400),
    (5.0, 0.7476, 0.1417),
]
"""Roark, 7th edition, table 11.4 case 1a, read in two copies."""
RITZ = [
    (1.0, 0.3080, 0.0138),
    (1.2, 0.3834, 0.0188),
    (1.4, 0.4355, 0.0226),
    (1.6, 0.4682, 0.0251),
    (2.0, 0.4972, 0.0277),
]
"""Clamped plates by a 13 x 13 Ritz sum, worked out apart from the code."""


def navier(ratio: float) -> tuple[float, float]:
    """beta and alpha of a simply supported plate by Navier's double series (Timoshenko, 30)."""
    bending = sag = 0.0
    for m in range(1, 120, 2):
        for n in range(1, 120, 2):
            term = sin(m * pi / 2) * sin(n * pi / 2) / (m * n * ((m / ratio) ** 2 + n**2) ** 2)
            sag += term
            bending += term * (n**2 + POISSON * (m / ratio) ** 2)
    rigidity = 12.0 * (1.0 - POISSON**2)
    return 6.0 * 16.0 / pi**4 * bending, rigidity * 16.0 / pi**6 * sag


@pytest.mark.parametrize(("ratio", "beta", "alpha"), ROARK)
def test_supported_as_printed(ratio: float, beta: float, alpha: float) -> None:
    assert coefficients(ratio, "supported") == (beta, alpha)


@pytest.mark.parametrize("row", [row for row in SUPPORTED if row[0] <= 5.0], ids=lambda row: str(row[0]))
def test_supported_against_the_series(row: tuple[float, float, float]) -> None:
    """Roark rounds alpha at 1.4 and 2.0 by about half a percent."""
    assert row[1:] == pytest.approx(navier(row[0]), rel=0.01)


@pytest.mark.parametrize(("ratio", "beta", "alpha"), RITZ)
def test_clamped_against_ritz(ratio: float, beta: float, alpha: float) -> None:
    assert coefficients(ratio, "clamped") == pytest.approx((beta, alpha), rel=0.005)


@pytest.mark.parametrize("edges", ["supported", "clamped"])
def test_between_rows_and_beyond(edges: Edges) -> None:
    """Rising all the way to the endless plate, never above it."""
    ratios = [*(1.0 + step / 20.0 for step in range(200)), 1e9]
    betas = [coefficients(ratio, edges)[0] for ratio in ratios]
    assert betas == sorted(betas)
    assert betas[-1] == {"supported": SUPPORTED, "clamped": CLAMPED}[edges][-1][1]


def test_between_rows_is_near_the_series() -> None:
    for ratio in (1.1, 1.3, 1.5, 1.7, 1.9, 2.5, 3.5, 4.5):
        beta, alpha = coefficients(ratio, "supported")
        assert (beta, alpha) == pytest.approx(navier(ratio), rel=0.012)


def test_an_aluminium_cover_under_its_own_weight_at_20_g() -> None:
    """600 x 400 x 2, 2660 kg/m3, 70 GPa: 4.0 mm, beyond half the thickness (facts, section 5)."""
    pressure = 2660e-9 * 2.0 * 9.81 * 20.0
    bent = plate((600.0, 400.0), 2.0, pressure, 70000.0, "supported")
    assert bent.sag == pytest.approx(4.0, abs=0.05)
    assert not bent.linear


def test_a_square_is_the_least_ratio() -> None:
    with pytest.raises(ValueError, match="at least 1"):
        coefficients(0.9, "supported")


def held_strip(span: float, thickness: float, pressure: float, modulus: float) -> tuple[float, float]:
    """Stress and sag of a strip whose ends cannot draw in, by sine waves and the length it stretches.

    Each wave bends and is pulled; the tension is the one that stretches the strip as long as its sagged line.
    """
    stiff = modulus * thickness**3 / (12.0 * (1.0 - POISSON**2))
    waves = [(k, k * pi / span) for k in range(1, 400, 2)]

    def heights(pulled: float) -> list[float]:
        return [4.0 * pressure / (pi * k) / (stiff * w**4 + pulled * w**2) for k, w in waves]

    def stretched(pulled: float) -> float:
        return sum((a * w) ** 2 for a, (_, w) in zip(heights(pulled), waves, strict=True)) * span / 4.0

    low, high = 0.0, 1e5
    for _ in range(100):
        pulled = (low + high) / 2.0
        asked = pulled * (1.0 - POISSON**2) * span / (modulus * thickness)
        low, high = (low, pulled) if asked > stretched(pulled) else (pulled, high)
    found = heights(low)
    moment = stiff * sum(a * w**2 * sin(k * pi / 2) for a, (k, w) in zip(found, waves, strict=True))
    sag = sum(a * sin(k * pi / 2) for a, (k, _) in zip(found, waves, strict=True))
    return low / thickness + 6.0 * moment / thickness**2, sag


@pytest.mark.parametrize("pressure", [1e-5, 1e-3, 1e-2, 0.1])
@pytest.mark.parametrize(("span", "thickness", "modulus"), [(400.0, 2.0, 70000.0), (146.0, 2.5, 210000.0)])
def test_cylindrical_bending(pressure: float, span: float, thickness: float, modulus: float) -> None:
    """Timoshenko's closed form against sine waves, from plain bending to nearly a skin."""
    bent = strip_held_at_ends(span, thickness, pressure, modulus)
    assert (bent.stress, bent.sag) == pytest.approx(held_strip(span, thickness, pressure, modulus), rel=2e-3)


def test_a_held_strip_bends_as_a_long_plate_while_the_sag_is_small() -> None:
    long = plate((1e11, 400.0), 2.0, 1e-5, 70000.0, "supported")
    strip = strip_held_at_ends(400.0, 2.0, 1e-5, 70000.0)
    assert strip.stress == pytest.approx(long.stress, rel=2e-2)
    assert strip.sag == pytest.approx(long.sag, rel=2e-2)


def test_yield_lines() -> None:
    """24 m / a^2 of a square and 8 m / b^2 of a long strip, as in every book on yield lines (from memory)."""
    moment = 100.0 * 4.0 / 4.0
    assert yield_line_pressure((400.0, 400.0), 2.0, 100.0) == pytest.approx(24.0 * moment / 400.0**2)
    assert yield_line_pressure((1e9, 400.0), 2.0, 100.0) == pytest.approx(8.0 * moment / 400.0**2)


def test_more_than_any_metal_bears_is_refused() -> None:
    with pytest.raises(ValueError, match="more than any"):
        strip_held_at_ends(400.0, 2.0, 1e12, 70000.0)
