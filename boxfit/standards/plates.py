"""Rectangular plates under an even load: stress and sag by handbook coefficients. [mm, MPa]

sigma = beta q b^2 / t^2 and y = alpha q b^4 / (E t^3), b the short side, Poisson's ratio 0.3. Linear theory:
it holds while the sag stays below half the thickness; beyond that the plate also carries as a skin in
tension, so that the linear stress and sag are more than the true ones, on the safe side, and are told so.
"""

from bisect import bisect_left
from dataclasses import dataclass
from math import cosh, sqrt, tanh
from typing import Literal

Edges = Literal["supported", "clamped"]
LINEAR_SAG = 0.5
"""Largest sag, in thicknesses [-], for which the formulae hold. Source: Roark, 8th edition."""

_LONG = 1e9
SUPPORTED = (
    (1.0, 0.2874, 0.0444),
    (1.2, 0.3762, 0.0616),
    (1.4, 0.4530, 0.0770),
    (1.6, 0.5172, 0.0906),
    (1.8, 0.5688, 0.1017),
    (2.0, 0.6102, 0.1110),
    (3.0, 0.7134, 0.1335),
    (4.0, 0.7410, 0.1400),
    (5.0, 0.7476, 0.1417),
    (_LONG, 0.7500, 0.1421),
)
"""a/b, beta, alpha; all edges simply supported. Roark, 7th edition, table 11.4 case 1a (1.8: from memory)."""
CLAMPED = (
    (1.0, 0.3078, 0.0138),
    (1.2, 0.3834, 0.0188),
    (1.4, 0.4356, 0.0226),
    (1.6, 0.4680, 0.0251),
    (1.8, 0.4872, 0.0267),
    (2.0, 0.4974, 0.0277),
    (_LONG, 0.5000, 0.0284),
)
"""a/b, beta at the middle of the long edge, alpha; all edges clamped. Roark, table 11.4 case 8, from
memory."""


@dataclass(frozen=True)
class Bent:
    """A plate's greatest stress [MPa] and sag [mm] by linear theory; `linear` is False beyond its range."""

    stress: float
    sag: float
    linear: bool


def coefficients(ratio: float, edges: Edges) -> tuple[float, float]:
    """beta and alpha [-] for long over short side [-], at least 1; between the table's rows
    straight in short over long, which is within 1.5 % of finite elements.

    Raises ValueError for a ratio below 1.

    >>> coefficients(1.2, "supported")
    (0.3762, 0.0616)
    """
    if ratio < 1.0:
        raise ValueError(f"long over short side is at least 1 (got {ratio:g})")
    table = SUPPORTED if edges == "supported" else CLAMPED
    place = bisect_left([row[0] for row in table], ratio)
    if table[place][0] == ratio:
        return table[place][1:]
    (low, *below), (high, *above) = table[place - 1], table[place]
    part = (1.0 / low - 1.0 / ratio) / (1.0 / low - 1.0 / high)
    beta, alpha = (one + part * (other - one) for one, other in zip(below, above, strict=True))
    return (beta, alpha)


def plate(size: tuple[float, float], thickness: float, pressure: float, modulus: float, edges: Edges) -> Bent:
    """A plate of two sides [mm] and `thickness` [mm] under an even `pressure` [MPa]; `modulus` [MPa].

    >>> bent = plate((600.0, 400.0), 2.0, 0.001044, 70000.0, "supported")
    >>> round(bent.sag, 1), bent.linear
    (4.0, False)
    """
    long, short = max(size), min(size)
    beta, alpha = coefficients(long / short, edges)
    stress = beta * pressure * short**2 / thickness**2
    sag = alpha * pressure * short**4 / (modulus * thickness**3)
    return Bent(stress, sag, sag <= LINEAR_SAG * thickness)


POISSON = 0.3
_TAUT = 350.0
"""Beyond this hyperbolic functions leave the range of numbers; no plate of metal comes near it."""


def strip_held_at_ends(span: float, thickness: float, pressure: float, modulus: float) -> Bent:
    """A long plate across its short side `span` [mm] whose two long edges turn freely but cannot draw in.

    Bending and the skin's tension together, at any sag. Source: Timoshenko and Woinowsky-Krieger, Theory of
    Plates and Shells, cylindrical bending (articles 1 and 2), from memory; the tests hold it against a
    numerical integration. Short edges are left out: a plate's sag is no more. Raises ValueError for a load
    far beyond any metal's.

    >>> light, heavy = (strip_held_at_ends(400.0, 2.0, q, 70000.0) for q in (1e-5, 1e-2))
    >>> round(light.sag, 2), round(heavy.sag, 2), round(heavy.stress)
    (0.06, 4.23, 39)
    """
    stiff = 1.0 - POISSON**2
    wanted = modulus**2 * thickness**8 / (stiff**2 * pressure**2 * span**8) if pressure else float("inf")
    low, high = 1e-9, _TAUT
    if _tension(high) > wanted:
        raise ValueError(f"{pressure:g} MPa is more than any such plate bears")
    for _ in range(80):
        middle = (low + high) / 2.0
        low, high = (middle, high) if _tension(middle) > wanted else (low, middle)
    u = low
    pulled = modulus * u**2 / (3.0 * stiff) * (thickness / span) ** 2
    moment, deflected = _eased(u)
    bent = 0.75 * pressure * (span / thickness) ** 2 * moment
    plain = 5.0 * pressure * span**4 * 12.0 * stiff / (384.0 * modulus * thickness**3)
    sag = plain * deflected
    return Bent(pulled + bent, sag, sag <= LINEAR_SAG * thickness)


def _eased(u: float) -> tuple[float, float]:
    """What the tension leaves of the moment and of the sag in the middle [-]."""
    if u < 0.1:  # the terms below cancel; the first two of their series
        return 1.0 - 5.0 * u**2 / 12.0, 1.0 - 61.0 * u**2 / 150.0
    eased = 1.0 / cosh(u)
    return (1.0 - eased) / (u**2 / 2.0), (eased - 1.0 + u**2 / 2.0) / (5.0 * u**4 / 24.0)


def _tension(u: float) -> float:
    """What the tension parameter u makes of E^2 h^8 / ((1 - nu^2)^2 q^2 l^8), falling as u grows."""
    if u < 0.1:  # the terms below cancel; the leading one of their series
        return 54.0 / 315.0 / u**2
    t = tanh(u)
    return (
        135.0 * t / (16.0 * u**9) + 27.0 * t**2 / (16.0 * u**8) - 135.0 / (16.0 * u**8) + 9.0 / (8.0 * u**6)
    )


def yield_line_pressure(size: tuple[float, float], thickness: float, yielding: float) -> float:
    """The pressure [MPa] at which a supported plate of metal becomes a mechanism of yield lines.

    q = 24 m / (b^2 (sqrt(3 + (b/a)^2) - b/a)^2), m = fy t^2 / 4. Source: Johansen's yield line theory, from
    memory; bending alone, so that the skin's tension comes on top.

    >>> round(yield_line_pressure((400.0, 400.0), 2.0, 100.0), 5)  # a square plate: 24 m / a^2
    0.015
    """
    long, short = max(size), min(size)
    slender = short / long
    moment = yielding * thickness**2 / 4.0
    return 24.0 * moment / (short**2 * (sqrt(3.0 + slender**2) - slender) ** 2)
