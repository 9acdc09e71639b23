"""Developed lengths and least radii against worked figures in print."""

from math import pi

import pytest

from boxfit.standards.bending import (
    bend_allowance,
    correction,
    developed_length,
    k_factor,
    least_inside_radius,
    shortening,
)
from boxfit.standards.materials import MATERIALS, PLASTICS

QUARTER = pi / 2.0


def test_example_of_the_german_trade_tables() -> None:
    """DIN 6935, a 16, b 21, r 6, s 5, 60 degrees: k 0.7 by the chart, v 5.77, L 31.23, rounded up to 32.

    Source: German trade tables, page on developed lengths (scribd 401383818).
    """
    assert correction(6.0, 5.0) == pytest.approx(0.6896, abs=5e-5)
    v = shortening(60.0, 6.0, 5.0, k=0.7)
    assert v == pytest.approx(5.77, abs=0.005)
    assert 16.0 + 21.0 - v == pytest.approx(31.23, abs=0.005)
    # recomputed with k by the formula in place of the chart
    assert shortening(60.0, 6.0, 5.0) == pytest.approx(5.8229, abs=5e-5)
    assert developed_length((16.0, 21.0), 60.0, 6.0, 5.0) == pytest.approx(31.177, abs=5e-4)


def test_correction_reaches_one_at_five() -> None:
    """The same page: above r / s = 5 the plain stretched length is accurate enough."""
    assert correction(5.0, 1.0) == pytest.approx(0.9995, abs=5e-5)
    assert correction(5.1, 1.0) == 1.0
    assert k_factor(10.0, 1.0) == 0.5


def test_short_form_for_right_angles() -> None:
    """v = 0.43 r + 1.48 s, r 7, s 3.18, legs 605 and 50 with two such bends: v 7.71, L 639.58, to 640.

    Source: an engineer's notes (scribd 74375167). An approximation, 5 % above the standard's own sum.
    """
    short = 0.43 * 7.0 + 1.48 * 3.18
    # the notes cut 7.7164 off to 7.71
    assert short == pytest.approx(7.71, abs=0.01)
    assert 605.0 + 50.0 - 2.0 * short == pytest.approx(639.58, abs=0.02)
    exact = shortening(90.0, 7.0, 3.18)
    assert exact == pytest.approx(7.313, abs=5e-4)
    assert short == pytest.approx(exact, rel=0.06)


@pytest.mark.parametrize(
    ("radius", "thickness", "printed", "exact"),
    [
        (1.0, 1.0, 1.9, 1.919),
        (1.6, 1.0, 2.1, 2.096),
        (2.5, 1.5, 3.2, 3.177),
        (4.0, 2.0, 4.5, 4.459),
        (6.0, 3.0, 6.7, 6.689),
    ],
)
def test_right_angles_of_the_standards_table(
    radius: float, thickness: float, printed: float, exact: float
) -> None:
    """DIN 6935 supplement 2, printed to one place: from memory; the exact figures recomputed."""
    assert shortening(90.0, radius, thickness) == pytest.approx(exact, abs=5e-4)
    assert shortening(90.0, radius, thickness) == pytest.approx(printed, abs=0.0501)


@pytest.mark.parametrize(
    ("opening", "radius", "thickness", "v"),
    [(135.0, 4.0, 2.0, 1.2002), (120.0, 2.5, 2.0, 1.8467), (150.0, 2.0, 2.0, 0.7561), (170.0, 2.0, 2.0, 0.0)],
)
def test_open_bends(opening: float, radius: float, thickness: float, v: float) -> None:
    """By DIN 6935's formula for 90 to 165 degrees, recomputed apart from this program; none printed."""
    assert shortening(opening, radius, thickness) == pytest.approx(v, abs=5e-5)


def test_angles_beyond_a_half_turn_are_refused() -> None:
    for opening in (-1.0, 181.0):
        with pytest.raises(ValueError, match="between 0 and 180 degrees"):
            shortening(opening, 2.0, 2.0)


@pytest.mark.parametrize(
    ("radius", "thickness", "k", "allowance"),
    [(0.060, 0.063, 0.402, 0.13403), (0.060, 0.060, 0.463, 0.13788)],
)
def test_allowance_by_the_handbooks_k(radius: float, thickness: float, k: float, allowance: float) -> None:
    """K of Machinery's Handbook 26th edition for aluminium .063 and cold rolled steel .060 (vedge.org/kfac).

    Inches, 90 degrees; the allowances recomputed.
    """
    assert bend_allowance(90.0, radius, thickness, k) == pytest.approx(allowance, abs=5e-6)


@pytest.mark.parametrize(
    ("factor", "k", "length"), [(0.55, 0.350, 5.81), (0.64, 0.407, 5.99), (0.71, 0.452, 6.13)]
)
def test_straight_line_forms_of_the_handbook(factor: float, k: float, length: float) -> None:
    """L = 0.55, 0.64 or 0.71 T + 1.57 R (Machinery's Handbook, from memory); T 2, R 3 mm."""
    assert factor / QUARTER == pytest.approx(k, abs=5e-4)
    assert factor * 2.0 + 1.57 * 3.0 == pytest.approx(length, abs=5e-3)
    assert bend_allowance(90.0, 3.0, 2.0, k) == pytest.approx(length, abs=6e-3)


@pytest.mark.parametrize("radius", [0.5, 1.0, 2.5, 4.0, 20.0])
def test_allowance_and_shortening_are_one(radius: float) -> None:
    """a + b - v is the two legs to the tangents and the allowance between them, up to 90 degrees."""
    allowance = bend_allowance(90.0, radius, 2.0, k_factor(radius, 2.0))
    straight = 2.0 * (50.0 - radius - 2.0)
    assert developed_length((50.0, 50.0), 90.0, radius, 2.0) == pytest.approx(straight + allowance)


@pytest.mark.parametrize(
    ("material", "multiples"),
    [
        ("aluminium-5754", (0.0, 0.5, 1.0, 1.0, 2.0)),  # O/H111: scribd 240503265, copy of a dealer's page
        ("aluminium-5083", (0.5, 1.0, 1.5, 1.5, 2.5)),  # O/H111: euralliage.com/5083_english.htm
        ("aluminium-5052", (0.5, 1.0, 1.5, 1.5, 2.5)),  # H22/H32: a dealer's page that cites EN 485-2
        ("aluminium-6082", (2.5, 2.5, 3.5, 4.5, 6.0)),  # T6: euralliage.com/6082_english.htm
    ],
)
def test_least_radii_of_en_485_2(material: str, multiples: tuple[float, ...]) -> None:
    """Recommended, 90 degrees, as multiples of the thickness."""
    for thickness, multiple in zip((0.45, 1.5, 2.5, 5.0, 10.0), multiples, strict=True):
        least = least_inside_radius(material, thickness)
        assert least is not None
        assert least.radius == pytest.approx(multiple * thickness)
        assert least.source.startswith("EN 485-2")


@pytest.mark.parametrize(
    ("material", "edges"),
    [
        (
            "aluminium-5754",
            {0.21: 0.0, 0.5: 0.0, 0.51: 0.5, 1.51: 1.0, 3.0: 1.0, 3.01: 1.0, 6.0: 1.0, 6.01: 2.0, 12.5: 2.0},
        ),
        (
            "aluminium-5083",
            {
                0.21: 0.5,
                0.5: 0.5,
                0.51: 1.0,
                1.5: 1.0,
                1.51: 1.5,
                3.0: 1.5,
                3.01: 1.5,
                6.0: 1.5,
                6.01: 2.5,
                12.5: 2.5,
            },
        ),
        (
            "aluminium-5052",
            {
                0.21: 0.5,
                0.5: 0.5,
                0.51: 1.0,
                1.5: 1.0,
                1.51: 1.5,
                3.0: 1.5,
                3.01: 1.5,
                6.0: 1.5,
                6.01: 2.5,
                12.5: 2.5,
            },
        ),
        (
            "aluminium-6082",
            {0.41: 2.5, 1.5: 2.5, 1.51: 3.5, 3.0: 3.5, 3.01: 4.5, 6.0: 4.5, 6.01: 6.0, 12.5: 6.0},
        ),
    ],
)
def test_where_the_rows_of_en_485_2_end(material: str, edges: dict[float, float]) -> None:
    """Over 0.2, 0.5, 1.5, 3 and 6 mm, up to and including 0.5, 1.5, 3, 6 and 12.5; 6082 T6 from over 0.4."""
    for thickness, multiple in edges.items():
        least = least_inside_radius(material, thickness)
        assert least is not None
        assert least.radius == pytest.approx(multiple * thickness), thickness
    assert least_inside_radius(material, 0.2 if material != "aluminium-6082" else 0.4) is None
    assert least_inside_radius(material, 12.6) is None


def test_thin_structural_steel_is_bent_as_din_6935_says() -> None:
    """EN 10025-2 begins above 1 mm; DIN 6935 has 1 across, and along the next thicker sheet's 1.6."""
    found = [least_inside_radius("steel-s235", 1.0, along) for along in (False, True)]
    assert [one and one.radius for one in found] == [1.0, 1.6]


STEEL = (1.2, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 10.0)


def test_least_radii_of_en_10025_2() -> None:
    """S235JRC, up to 90 degrees: a galvaniser's guide (ks-ratgeber.galvaswiss.ch/de/54-55)."""
    across = [least_inside_radius("steel-s235", thickness, False) for thickness in STEEL]
    along = [least_inside_radius("steel-s235", thickness) for thickness in STEEL]
    assert [one and one.radius for one in across] == [1.6, 2.5, 3.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0]
    assert [one and one.radius for one in along] == [1.6, 2.5, 3.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0]


def test_least_radii_of_din_6935() -> None:
    """Rm up to 390 MPa, across; along the rolling direction the next thicker one (scribd 74375167)."""
    sheets = (1.0, 1.5, 2.5, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0)
    across = [least_inside_radius("steel-dc01", thickness, False) for thickness in sheets]
    assert [one and one.radius for one in across] == [1.0, 1.6, 2.5, 3.0, 5.0, 6.0, 8.0, 10.0, 12.0]
    along = [least_inside_radius("steel-dc01", thickness) for thickness in sheets[:-1]]
    assert [one and one.radius for one in along] == [1.6, 2.5, 3.0, 5.0, 6.0, 8.0, 10.0, 12.0]
    assert least_inside_radius("steel-dc01", 8.0) is None


@pytest.mark.parametrize(
    ("material", "along", "radii"),
    [
        ("steel-s235", False, (1.0, 1.6, 2.5, 3.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0)),
        ("steel-s235", True, (1.6, 1.6, 2.5, 3.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0)),
        ("steel-dc01", False, (1.0, 1.6, 2.5, 3.0, 5.0, 6.0, 8.0, 10.0, 12.0)),
        ("steel-dc01", True, (1.6, 2.5, 3.0, 5.0, 6.0, 8.0, 10.0, 12.0)),
    ],
)
def test_where_the_rows_of_steel_end(material: str, along: bool, radii: tuple[float, ...]) -> None:
    """Both standards have the same rows: over one thickness, up to and including the next."""
    ends = (0.0, 1.0, 1.5, 2.5, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 10.0)
    for over, up_to, radius in zip(ends, ends[1:], radii, strict=False):
        for thickness in (over + 0.01, up_to):
            least = least_inside_radius(material, thickness, along)
            assert (least and least.radius) == radius, thickness
    assert least_inside_radius(material, ends[len(radii)] + 0.01, along) is None


def test_what_is_not_tabled_is_not_known() -> None:
    """Plastics are not folded, of 5005 no table was read; sheet thicker than a table says nothing."""
    unknown = {name for name in MATERIALS if least_inside_radius(name, 2.0) is None}
    assert unknown == {*PLASTICS, "aluminium-5005", "epdm-foam"}
    assert least_inside_radius("aluminium-5754", 13.0) is None
    assert [least_inside_radius("stainless-1.4301", sheet) is None for sheet in (0.01, 6.0, 6.01)] == [
        False,
        False,
        True,
    ]
    stainless = least_inside_radius("stainless-1.4301", 1.5)
    assert stainless is not None
    assert stainless.radius == 1.5
    assert "from memory" in stainless.source
