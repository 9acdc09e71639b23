"""Sheets are those of ISO 216: A0 is a square metre, its sides as 1 to the root of 2; the next is half."""

from math import sqrt

import pytest

from boxfit.sheet.drawing.paper import A0, A1, A2, A3, A4, Paper


@pytest.mark.parametrize(("number", "paper"), list(enumerate((A0, A1, A2, A3, A4))))
def test_sides_are_those_of_the_series(number: int, paper: Paper) -> None:
    """To the whole millimetre, from A4 on cut downwards."""
    exact = 1000.0 * 2.0 ** (0.25 - number / 2.0)
    sides = sorted((paper.width, paper.height))
    assert sides[1] == pytest.approx(exact, abs=0.7)
    assert sides[0] == pytest.approx(exact / sqrt(2.0), abs=0.7)
