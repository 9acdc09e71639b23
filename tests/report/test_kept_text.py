"""What was kept, in the summary and in notes: figures by hand, and nothing where nothing was kept."""

from dataclasses import replace

import pytest

from boxfit.car import Limits, PointMass, Target
from boxfit.report.kept_text import kept_note, nearest_note, never_holds
from boxfit.report.margins import margins
from boxfit.report.summary import how_good, summary
from boxfit.weight.corners import Margin
from boxfit.weight.held import Held
from tests.report.samples import roadster

CAR, MODULE, LAYOUT = roadster()
KEPT = (
    PointMass("fixed to the boxes of front bay", 2.5, (-300.0, 0.0, 400.0)),
    PointMass("link cables", 9.1, (-1200.0, 0.0, 500.0)),
)
WITH_IT = replace(LAYOUT, reserve=KEPT)
BROKE = Held((Margin("rear axle", 521.04, 520.0),), 0.0011, 0.5211)


def test_a_note_tells_what_was_kept_why_and_what_it_costs() -> None:
    less = replace(WITH_IT, count=6, energy=13.2)
    note = kept_note(LAYOUT, BROKE, less)
    assert note.startswith("Kept 11.6 kg for what is fixed to the boxes and for link cables")
    assert "9 modules, 19.8 kWh, would have had rear axle 521.0 kg" in note
    assert "1.0 over its 520; front share 0.5211 with everything on, 0.0011 beyond its tolerance" in note
    assert "Against that: -3 modules, -6.6 kWh" in note


def test_the_summary_tells_what_is_in_its_loads_and_what_a_proof_holds_with() -> None:
    words = " ".join(summary(CAR, MODULE, WITH_IT).split())
    assert "kept fixed to the boxes of front bay 2.5 kg, link cables 9.1 kg; all loads below have it" in words
    assert how_good(replace(WITH_IT, proven=True)).startswith(
        "proven with 11.6 kg kept for fittings and cables:"
    )
    assert how_good(replace(WITH_IT, proven=False)).startswith("not proven with 11.6 kg kept")
    assert "kept for fittings" not in how_good(LAYOUT)
    assert "\n  kept  " not in summary(CAR, MODULE, LAYOUT)


def test_loads_of_boxes_and_modules_alone_are_called_so() -> None:
    words = " ".join(summary(CAR, MODULE, LAYOUT).split())
    assert "held without what is fixed to the boxes and without link cables" in words
    nothing_asked = replace(CAR, target=None, limits=Limits())
    assert "held without" not in summary(nothing_asked, MODULE, LAYOUT)


def test_a_target_that_none_meets_is_told_with_its_figures() -> None:
    note = nearest_note(CAR, BROKE, 12.3)
    assert "nearest at 0.5211, 0.0011 beyond the tolerance" in note
    assert "up to 12.3 kg" in note
    with pytest.raises(ValueError, match="never asked"):
        nearest_note(replace(CAR, target=None), BROKE, 12.3)
    assert CAR.target == Target(0.50, 0.02, ("driver",))


def test_that_nothing_holds_is_told_with_what_would_do() -> None:
    first, second, last = never_holds(LAYOUT, BROKE, 12.3, ("Even the smallest pack is too heavy.",))
    assert "breaks the plate once everything is on: rear axle 521.0 kg" in first
    assert "fit or carry 1.0 kg less there" in second
    assert last.endswith("Even the smallest pack is too heavy.")


def test_margins_are_worked_out_once_for_the_same_boxes() -> None:
    """Whatever else a layout tells: its weights as built, its notes, its alternatives."""
    found = margins(CAR, LAYOUT)
    again = margins(CAR, replace(LAYOUT, notes=("told anew",), reserve=KEPT))
    assert found
    assert all(one is other for one, other in zip(found, again, strict=True))
