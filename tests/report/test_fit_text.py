"""The fit inside the boxes in words and as rows. Expected figures: see tests/box/test_fit.py."""

import csv
import io
from dataclasses import replace

from boxfit.bay import BoxRules
from boxfit.layout import BayLayout, Layout, Weights
from boxfit.report.fit_text import BoxFit, box_fits, fit_csv, fit_notes
from tests.box.samples import HERON, RULES
from tests.box.test_fit import snug


def fits(counts: tuple[int, ...], rules: BoxRules = RULES) -> tuple[tuple[BoxFit, ...], Layout]:
    built = snug(counts, rules)
    bays = (BayLayout(built.bay.name, (built.box,)),)
    count = sum(counts)
    layout = Layout("car", "Heron 44", count, 1, count, 2.2, count, True, True, bays, Weights(1.0, 1.0))
    return box_fits((built,), HERON), layout


def test_the_maker_is_told_the_tightest_rows() -> None:
    found, _ = fits((3,))
    assert fit_notes(found) == (
        "front bay box 1: inside fit, tightest tier 1 along y (3 modules): 8.0, 6.2, 3.4; tier 1 upwards: "
        "5.0, 4.3, 3.7 (mm of play as drawn, typical, worst case; see fit.csv)",
    )


def test_the_maker_is_told_what_may_jam_and_what_would_do() -> None:
    found, _ = fits((3,), replace(RULES, gap=2.0, headroom=1.0))
    assert fit_notes(found)[1:] == (
        "front bay box 1: tier 1 along y (3 modules) may jam: 4.0 mm of play as drawn, -0.6 in the worst "
        "case; box.gap = 2.3 would do",
        "front bay box 1: tier 1 upwards may jam: 1.0 mm of play as drawn, -0.3 in the worst case; "
        "box.headroom = 1.3 would do",
    )
    drawn, _ = fits((1,), replace(RULES, process="welded", liner=0.0, gap=1.0))
    assert any("along x (1 module) jams even as drawn: -4.0 mm of play" in note for note in fit_notes(drawn))


def test_rows_that_are_alike_are_told_once() -> None:
    """A gap of 3 past bars of 3 + 3 / 2; along y the neighbours leave 3 + 1.5, and at the worst 0.06."""
    found, _ = fits((3, 1), replace(RULES, gap=3.0))
    past = [note for note in fit_notes(found) if "past the ledge" in note]
    assert past == [
        "front bay box 1: tier 1 along x (1 module) past the ledge may jam: 3.0 mm of play as drawn, -0.4 in "
        "the worst case; bars of the ledge 0.2 mm narrower, or tipping it in, would do"
    ]


def test_every_row_is_listed_with_its_numbers() -> None:
    found, layout = fits((3,))
    rows = list(csv.DictReader(io.StringIO(fit_csv(found, layout))))
    assert len(rows) == len(found[0].rows) == 5
    row = next(one for one in rows if one["direction"] == "y")
    assert row == {
        "bay": "front bay",
        "box": "1",
        "tier": "1",
        "direction": "y",
        "where": "in place",
        "modules": "1-3",
        "between": "liner and liner",
        "clear": "465.0",
        "needed": "457.0",
        "play": "8.0",
        "typical": "6.2",
        "worst case": "3.4",
        "what may be out": "3 x module 0.5; 2 x liner 0.3; 2 x fold 0.25; 2 x lean of a wall 0.97",
        "would do": "",
    }
