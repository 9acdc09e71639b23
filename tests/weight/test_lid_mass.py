"""Lid, gasket and cover plate weighed against sums by hand; tests/solid holds them against the solids."""

from dataclasses import replace
from math import pi

import pytest

from boxfit.box_shape import rectangle
from boxfit.weight.box_mass import PartMass, part_masses
from tests.box.samples import RULES

PLAN = (rectangle((0.0, 0.0), (600.0, 400.0)),)
PRINTED = replace(RULES, process="printed", material="petg", gasket_width=6.0, gasket_thickness=3.0)


def parts(returned: bool = True, **rules: float | str) -> dict[str, PartMass]:
    found = part_masses(PLAN, 200.0, (5.5,), replace(PRINTED, **rules), True, returned)  # type: ignore[arg-type]
    return {part.part: part for part in found}


def test_lid_with_studs() -> None:
    """644 x 444 x 2, 28 holes of 5.5, nine collars of 10 x 4 and threads of 6 through 2 and a nut of 3.2."""
    lid = parts()["lid"]
    stud = 100.0 * 4.0 + 36.0 * 5.2
    assert lid.volume == pytest.approx(644 * 444 * 2 + pi / 4.0 * (9 * stud - 28 * 5.5**2 * 2))
    assert lid.centre[:2] == pytest.approx((300.0, 200.0))


def test_gasket() -> None:
    """6 wide, pressed to 2; between the wall, as nothing is folded, and holes of 7 at the flange's middle."""
    gasket = parts()["gasket"]
    line = 7.5 / 2.0
    around = 2.0 * (600 + 400) + 8.0 * line
    assert gasket.volume == pytest.approx(around * 12.0)
    assert gasket.mass == pytest.approx(gasket.volume * 225e-9)
    assert gasket.centre[2] == pytest.approx(197.0)


def test_printed_cover_plate_is_a_shallow_box() -> None:
    """650 x 450 outside, 2 thick, edges 2 + 4 + 2 + 2 + 2.5 high; nine holes of 6.6."""
    cover = parts()["cover plate"]
    height = 2.0 + 4.0 + 2.0 + 2.0 + 2.5
    inside = 646 * 446 * (height - 2.0)
    assert cover.volume == pytest.approx(650 * 450 * height - inside - 9 * pi / 4.0 * 6.6**2 * 2)
    assert cover.mass == pytest.approx(cover.volume * 1270e-9)


def test_cover_plate_without_edges_of_another_material() -> None:
    cover = parts(returned=False, cover_material="stainless-1.4301")["cover plate"]
    assert cover.volume == pytest.approx(644 * 444 * 2 - 9 * pi / 4.0 * 6.6**2 * 2)
    assert cover.mass == pytest.approx(cover.volume * 7900e-9)
    assert cover.centre[2] == pytest.approx(205.0)


def test_a_bend_saves_sheet() -> None:
    """A quarter ring of 2.5 and 4.5 for a square corner, swept round; its centre by hand."""
    folded, square = parts(process="folded", gasket_width=0.0), parts(gasket_width=0.0)
    saved = 0.0
    for radius, sign in ((4.5, 1.0), (2.5, -1.0)):
        area = radius**2 * (1 - pi / 4)
        # a square less its quarter disc: first moments 1/2 and 1/3 of the radius cubed (textbook)
        centre = 25.0 - 4.5 + radius * (0.5 - 1.0 / 3.0) / (1.0 - pi / 4.0)
        saved += sign * area * (2 * (600 + 400) + 8 * centre)
    assert square["cover plate"].volume - folded["cover plate"].volume == pytest.approx(saved)
