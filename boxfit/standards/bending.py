"""What bending does to sheet: developed length, bend allowance, and the least inside radius. [mm, degrees]"""

from dataclasses import dataclass
from math import log10, pi, radians, tan

SHARPEST = 0.1
"""Below this ratio of inside radius to thickness the correction stays what it is there (our own choice:
the formula falls below zero as the radius goes to nothing)."""


def correction(radius: float, thickness: float) -> float:
    """The correction factor k [-] of DIN 6935, by inside radius and thickness [mm].

    k = 0.65 + 0.5 log10(r / s), 1 where r / s is above 5. Half of it is how far the neutral fibre lies from
    the inside, as a share of the thickness: `k_factor`. Source: DIN 6935, as printed in German trade tables.

    >>> round(correction(6.0, 5.0), 4), correction(30.0, 5.0)
    (0.6896, 1.0)
    """
    return min(1.0, 0.65 + 0.5 * log10(max(radius / thickness, SHARPEST)))


def k_factor(radius: float, thickness: float) -> float:
    """How far the neutral fibre lies from the inside, as a share of the thickness [-]: k / 2 of DIN 6935.

    >>> round(k_factor(2.5, 2.5), 3)
    0.325
    """
    return correction(radius, thickness) / 2.0


def bend_allowance(angle: float, radius: float, thickness: float, k: float) -> float:
    """Length of flat sheet [mm] that a bend through `angle` [degrees] uses up: BA = A pi/180 (R + K T).

    `k` [-] is the share of the thickness between the inside and the neutral fibre: the shop's own figure, or
    `k_factor`. Source: Machinery's Handbook, section on bending sheet metal.

    >>> round(bend_allowance(90.0, 0.060, 0.063, 0.402), 4)
    0.134
    """
    return radians(angle) * (radius + k * thickness)


def shortening(opening: float, radius: float, thickness: float, k: float | None = None) -> float:
    """How much shorter the flat is than its two legs [mm]: v of DIN 6935, positive where it is shorter.

    `opening` [degrees] is the angle left between the legs, 0 to 180; the legs are measured to where their
    outsides meet, past 90 degrees to the tangent of the bend's outside. `k` [-] is the standard's correction
    where it is read from its chart instead. Up to 90 degrees v = 2 (r + s) - pi (180 - b) / 180 (r + s k/2);
    to 165 degrees with 2 (r + s) tan((180 - b) / 2); above that v = 0. Source: DIN 6935, as printed in German
    trade tables. The standard itself gives v the other sign.
    Raises ValueError for an angle outside 0 to 180.

    >>> round(shortening(60.0, 6.0, 5.0, k=0.7), 2)
    5.77
    """
    if not 0.0 <= opening <= 180.0:
        raise ValueError(f"the opening angle must be between 0 and 180 degrees (got {opening:g})")
    if opening > 165.0:
        return 0.0
    factor = correction(radius, thickness) if k is None else k
    turned = 180.0 - opening
    legs = 1.0 if opening <= 90.0 else tan(radians(turned) / 2.0)
    return 2.0 * (radius + thickness) * legs - pi * turned / 180.0 * (radius + thickness * factor / 2.0)


def developed_length(legs: tuple[float, float], opening: float, radius: float, thickness: float) -> float:
    """Length of the flat [mm] for two legs [mm] and one bend: L = a + b - v of DIN 6935.

    >>> round(developed_length((16.0, 21.0), 60.0, 6.0, 5.0), 2)
    31.18
    """
    return sum(legs) - shortening(opening, radius, thickness)


@dataclass(frozen=True)
class LeastRadius:
    """The least inside radius [mm] for 90 degrees, and where the figure was taken from."""

    radius: float
    source: str


@dataclass(frozen=True)
class _Table:
    """Rows (over [mm], up to and including [mm], figure); the figure is in thicknesses or in [mm]."""

    rows: tuple[tuple[float, float, float], ...]
    of_thickness: bool
    source: str


_RANGES = ((0.2, 0.5), (0.5, 1.5), (1.5, 3.0), (3.0, 6.0), (6.0, 12.5))
_STEEL_RANGES = (
    (0.0, 1.0),
    (1.0, 1.5),
    (1.5, 2.5),
    (2.5, 3.0),
    (3.0, 4.0),
    (4.0, 5.0),
    (5.0, 6.0),
    (6.0, 7.0),
    (7.0, 8.0),
    (8.0, 10.0),
)


def _multiples(figures: tuple[float, ...], source: str) -> _Table:
    """A table of EN 485-2, 90 degrees."""
    rows = tuple((*span, figure) for span, figure in zip(_RANGES, figures, strict=True))
    return _Table(rows, True, f"EN 485-2, {source}")


def _radii(figures: tuple[float, ...], source: str) -> _Table:
    """A table in millimetres, by rising thickness."""
    spans = _STEEL_RANGES[: len(figures)]
    return _Table(tuple((*span, figure) for span, figure in zip(spans, figures, strict=True)), False, source)


_ALLOYS = {
    "aluminium-5754": _multiples((0.0, 0.5, 1.0, 1.0, 2.0), "5754 O/H111, a dealer's copy"),
    "aluminium-5083": _multiples((0.5, 1.0, 1.5, 1.5, 2.5), "5083 O/H111, a dealer's copy"),
    "aluminium-5052": _multiples((0.5, 1.0, 1.5, 1.5, 2.5), "5052 H22/H32, a dealer's copy"),
    "aluminium-6082": _Table(
        ((0.4, 1.5, 2.5), (1.5, 3.0, 3.5), (3.0, 6.0, 4.5), (6.0, 12.5, 6.0)),
        True,
        "EN 485-2, 6082 T6, a dealer's copy",
    ),
    "stainless-1.4301": _Table(
        ((0.0, 6.0, 1.0),), True, "working rule for 1.4301: one thickness, from memory"
    ),
}
"""The temper is the one sheet is bent in by common practice, no source; 5052 and 6082 the usual stock."""
_STEELS = {
    # the first figures are DIN 6935's, see below: the table of EN 10025-2 begins above 1 mm
    ("steel-s235", False): _radii(
        (1.0, 1.6, 2.5, 3.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0),
        "EN 10025-2 S235JRC, across the rolling direction, a galvaniser's guide",
    ),
    ("steel-s235", True): _radii(
        (1.6, 1.6, 2.5, 3.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0),
        "EN 10025-2 S235JRC, along the rolling direction, a galvaniser's guide",
    ),
    ("steel-dc01", False): _radii(
        (1.0, 1.6, 2.5, 3.0, 5.0, 6.0, 8.0, 10.0, 12.0),
        "DIN 6935 for Rm up to 390 MPa, across the rolling direction, German trade tables",
    ),
    # along the rolling direction DIN 6935 takes the figure of the next thicker sheet
    ("steel-dc01", True): _radii(
        (1.6, 2.5, 3.0, 5.0, 6.0, 8.0, 10.0, 12.0),
        "DIN 6935 for Rm up to 390 MPa, along the rolling direction, German trade tables",
    ),
}


def least_inside_radius(material: str, thickness: float, along_rolling: bool = True) -> LeastRadius | None:
    """The tightest inside radius [mm] for a 90 degree bend; None where no table tells.

    `material` is one of standards.materials, `thickness` in [mm]. A box is bent both ways, so that steel is
    taken along its rolling direction, the worse one, unless said. Sources: EN 485-2 (aluminium), EN 10025-2
    and DIN 6935 (steel); what is from memory says so.

    >>> least_inside_radius("aluminium-5754", 2.5)
    LeastRadius(radius=2.5, source="EN 485-2, 5754 O/H111, a dealer's copy")
    >>> least_inside_radius("steel-s235", 3.5).radius, least_inside_radius("steel-s235", 3.5, False).radius
    (6.0, 5.0)
    >>> least_inside_radius("petg", 2.5) is None
    True
    """
    table = _ALLOYS.get(material) or _STEELS.get((material, along_rolling))
    for over, up_to, figure in table.rows if table else ():
        if table and over < thickness <= up_to:
            return LeastRadius(figure * thickness if table.of_thickness else figure, table.source)
    return None
