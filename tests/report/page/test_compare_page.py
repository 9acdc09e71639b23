"""The page of a comparison as text."""

from dataclasses import replace

import pytest

from boxfit.report.page.compare import compare_page, margins_table
from boxfit.report.page.scatter import BOTTOM, HIGH, LEFT, RIGHT, TOP, WIDE, Dot, axis, scatter
from tests.report.page.rows import BEHIND, BEST, FAILS, ROWS


def test_every_row_and_its_figures_are_told() -> None:
    page = compare_page(ROWS, "Dunlin 850")
    for words in ("Dunlin 850: ways to fill it", "Heron 44", "19.8", "3 × 3", "3, of which 2 fit"):
        assert words in page
    assert "Wren &lt;22&gt;, box.shape=stepped" in page
    assert "Crane 88: no whole string stays in the window" in page
    assert page == compare_page(ROWS, "Dunlin 850")


def test_the_unbeaten_are_marked_by_word_and_by_look() -> None:
    page = compare_page(ROWS)
    assert page.count('<tr class="best">') == 1
    marked = page.split('<tr class="best">')[1].split("</tr>")[0]
    assert "Heron 44" in marked
    assert "<td>* yes</td>" in marked


def test_what_nobody_knows_is_no_column() -> None:
    assert ">litres left</th>" not in compare_page(ROWS)
    assert ">corners</th>" in compare_page((replace(BEST, corners=8),))
    assert ">corners</th>" not in compare_page(ROWS)
    assert '<th scope="col" class="number">kWh</th>' in compare_page(ROWS)


def test_a_limit_not_kept_is_told_in_words() -> None:
    found = margins_table((BEST, BEHIND))
    assert "-4.0 short" in found
    assert '<td class="number">0.015</td>' in found


def test_nothing_fits() -> None:
    page = compare_page((FAILS,))
    assert "1, of which 0 fit" in page
    assert "<svg" not in page


def test_dots_stand_where_their_figures_are() -> None:
    drawing = scatter((Dot(1, "one", 100.0, 10.0, True), Dot(2, "two", 200.0, 20.0, False)), "kg", "kWh", "t")
    assert drawing.count("<circle") == 2
    x, y = axis("kg", (100.0, 200.0), LEFT, WIDE - RIGHT), axis("kWh", (10.0, 20.0), HIGH - BOTTOM, TOP)
    assert f'cx="{x.at(200.0):.1f}" cy="{y.at(20.0):.1f}"' in drawing
    assert "1 one: 100 kg, 10.0 kWh, unbeaten; 2 two: 200 kg, 20.0 kWh" in drawing


@pytest.mark.parametrize("values", [(5.0,), (0.0,), (1e-4, 2e-4), (3.0, 1e5), (7.3, 7.3)])
def test_an_axis_takes_in_all_its_values(values: tuple[float, ...]) -> None:
    found = axis("kg", values, 0.0, 100.0)
    assert all(-1e-6 <= found.at(value) <= 100.0 + 1e-6 for value in values)
    assert 2 <= len(found.ticks) <= 14
