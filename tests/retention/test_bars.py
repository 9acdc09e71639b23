"""Bars and feet against textbook cases and a numerical integration of the section."""

import pytest

from boxfit.retention.bars import angle_section, bar_between


@pytest.mark.parametrize(
    ("flat", "upright", "thickness"), [(20.0, 20.0, 3.0), (15.0, 25.0, 2.5), (30.0, 10.0, 2.0)]
)
def test_angle_by_slices(flat: float, upright: float, thickness: float) -> None:
    """The second moment as a sum over thin slices."""
    step = 0.005
    levels = [(k + 0.5) * step for k in range(round(upright / step))]
    widths = [flat if level < thickness else thickness for level in levels]
    area = sum(widths) * step
    centre = sum(width * level for width, level in zip(widths, levels, strict=True)) * step / area
    moment = sum(width * (level - centre) ** 2 for width, level in zip(widths, levels, strict=True)) * step
    section = angle_section(flat, upright, thickness)
    assert section.second_moment == pytest.approx(moment, rel=1e-3)
    assert section.outermost == pytest.approx(max(centre, upright - centre), rel=1e-3)


def test_a_rolled_angle() -> None:
    """20 x 20 x 3: 0.39 cm4 in the tables of EN 10056, from memory; its root and toes are rounded."""
    assert angle_section(20.0, 20.0, 3.0).second_moment == pytest.approx(3900.0, rel=0.05)


def test_an_angle_without_its_upright_is_a_flat() -> None:
    assert angle_section(20.0, 3.0, 3.0).second_moment == pytest.approx(20.0 * 3.0**3 / 12.0)


def test_a_stiffer_bar_is_less_used() -> None:
    weak = bar_between(500.0, 400.0, angle_section(20.0, 3.0, 3.0), 70000.0)
    firm = bar_between(500.0, 400.0, angle_section(20.0, 20.0, 3.0), 70000.0)
    assert firm.stress < weak.stress
    assert firm.sag < weak.sag / 10.0


@pytest.mark.parametrize(("flat", "upright", "thickness"), [(26.0, 25.0, 2.5), (40.0, 15.0, 2.0)])
def test_channel_by_slices(flat: float, upright: float, thickness: float) -> None:
    """Two uprights: the same sum over thin slices."""
    step = 0.005
    levels = [(k + 0.5) * step for k in range(round(upright / step))]
    widths = [flat if level < thickness else 2.0 * thickness for level in levels]
    area = sum(widths) * step
    centre = sum(width * level for width, level in zip(widths, levels, strict=True)) * step / area
    moment = sum(width * (level - centre) ** 2 for width, level in zip(widths, levels, strict=True)) * step
    section = angle_section(flat, upright, thickness, 2)
    assert section.second_moment == pytest.approx(moment, rel=1e-3)
