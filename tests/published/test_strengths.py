"""Design strengths of sheet and softened zones (facts, section 4)."""

import pytest

from boxfit.standards.strengths import EXTRUDED, STRENGTHS, SoftenedAlloy

SHEET = {
    # EN 485-2, dealers' copies; softened zone EN 1999-1-1 table 3.2a, from memory
    "aluminium-5754": (80.0, 190.0, 80.0, 190.0, 70000.0),
    "aluminium-5083": (125.0, 275.0, 125.0, 275.0, 70000.0),
    "aluminium-5052": (130.0, 210.0, 80.0, 170.0, 70000.0),
    "aluminium-6082": (260.0, 310.0, 125.0, 185.0, 70000.0),
    # EN 10025-2, from memory
    "steel-s235": (235.0, 360.0, 235.0, 360.0, 210000.0),
    # EN 10130: Rm 270 read; no least yield there, 140 from memory
    "steel-dc01": (140.0, 270.0, 140.0, 270.0, 210000.0),
    # EN 10088-3 bar: 500 read; yield from memory; modulus 193 GPa read on a dealer's page
    "stainless-1.4301": (210.0, 500.0, 210.0, 500.0, 193000.0),
}
PRINTED_FACTORS = {
    "5083 O/H111": (110, 270, 1.0, 1.0),
    "5083 H12/22/32 tube": (200, 280, 0.68, 0.96),
    "5083 H14/24/34 tube": (235, 300, 0.57, 0.90),
    "6060 T6": (140, 170, 0.43, 0.59),
    "6061 T6": (240, 260, 0.48, 0.67),
    "6063 T6": (160, 195, 0.41, 0.56),
    "6005A T6 open": (225, 270, 0.51, 0.61),
}
"""EN 1999-1-1 table 3.2b as a public copy prints it: fo, fu [MPa], and what the softened zone keeps."""


@pytest.mark.parametrize("name", SHEET)
def test_sheet(name: str) -> None:
    one = STRENGTHS[name]
    found = (one.yielding, one.ultimate, one.yielding_softened, one.ultimate_softened, one.modulus)
    assert found == SHEET[name]


def test_every_metal_that_a_box_may_be_made_of_has_a_strength() -> None:
    assert set(STRENGTHS) == set(SHEET)


def test_the_upper_limit_of_dc01_is_no_strength() -> None:
    """EN 10130 gives DC01 a greatest yield of 280 MPa and no least one."""
    assert STRENGTHS["steel-dc01"].yielding < 280.0


@pytest.mark.parametrize("alloy", EXTRUDED, ids=lambda alloy: alloy.name)
def test_softened_zones(alloy: SoftenedAlloy) -> None:
    yielding, ultimate, *kept = PRINTED_FACTORS[alloy.name]
    assert (alloy.yielding, alloy.ultimate) == (yielding, ultimate)
    assert alloy.factors == pytest.approx(kept, abs=0.011)
