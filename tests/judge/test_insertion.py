"""The way out along the ground, and what counts as the open side."""

from dataclasses import replace

import pytest

from boxfit.bay import Bay, Block, Cylinder, Keepout, Opening, Point, Prism, Way
from boxfit.judge.claim import ClaimedBox
from boxfit.judge.insertion import closed_sides, judge_insertion
from boxfit.judge.places import SetBox, set_box
from tests.judge.samples import BAY, box

# a bay that narrows to a neck 200 wide at its front
NECKED = (
    (0.0, -100.0), (0.0, 100.0), (-300.0, 100.0), (-300.0, 300.0), (-800.0, 300.0), (-800.0, -300.0),
    (-300.0, -300.0), (-300.0, -100.0),
)  # fmt: skip


def placed(outline: tuple[Point, ...], keepouts: tuple[Keepout, ...] = (), y: float = -40.0) -> SetBox:
    """The sample box, flange 22, with its lowest corner at (-700, y, 300): flange at y - 22 to y + 103."""
    bay: Bay = replace(BAY, room=Prism(outline, 200.0, 700.0), keepouts=keepouts)
    return set_box("box", bay, ClaimedBox.model_validate(box(-700.0, y, 300.0)))


@pytest.mark.parametrize(
    ("y", "figure"),
    [
        (-6.0, None),  # hand: flange to y = 97, neck at 100, 3 needed
        (-5.0, 2.0),
        (-75.0, None),  # hand: flange from y = -97
        (-76.0, 2.0),
        (60.0, 0.0),  # hand: straight into the shoulder
    ],
)
def test_box_meets_the_shoulder_of_a_neck(y: float, figure: float | None) -> None:
    findings = judge_insertion(placed(NECKED, y=y), Opening("front"))
    assert [finding.figure for finding in findings] == ([] if figure is None else [figure])


def test_no_way_out_through_a_side_that_is_not_the_opening() -> None:
    assert judge_insertion(placed(NECKED), Opening("rear")) == []
    assert judge_insertion(placed(NECKED), Opening("left")) == []
    held = Keepout("pipe", Cylinder((-900.0, 0.0, 350.0), (-850.0, 0.0, 350.0), 20.0), 50.0)
    assert judge_insertion(placed(NECKED, (held,)), Opening("left")) == []


def test_box_goes_wholly_past_the_last_plane() -> None:
    # hand: the bar lies beyond the bay's rear plane, in the way of a box on its way out
    beyond = Keepout("tow hook", Block((-900.0, -10.0, 320.0), (-850.0, 10.0, 340.0)), 13.0)
    assert {finding.code for finding in judge_insertion(placed(NECKED, (beyond,)), Opening("rear"))} == {
        "insertion"
    }


@pytest.mark.parametrize(
    ("way", "low", "high", "figure"),
    [
        ("up", (-600.0, 0.0, 500.0), (-590.0, 10.0, 510.0), True),
        ("up", (-600.0, 0.0, 210.0), (-590.0, 10.0, 220.0), False),
        ("down", (-600.0, 0.0, 210.0), (-590.0, 10.0, 220.0), True),
        ("down", (-600.0, 0.0, 500.0), (-590.0, 10.0, 510.0), False),
        ("front", (-200.0, 0.0, 350.0), (-190.0, 10.0, 360.0), True),
        ("front", (-200.0, 0.0, 250.0), (-190.0, 10.0, 260.0), False),
        ("rear", (-790.0, 0.0, 350.0), (-780.0, 10.0, 360.0), True),
        ("rear", (-200.0, 0.0, 350.0), (-190.0, 10.0, 360.0), False),
        ("left", (-600.0, 200.0, 350.0), (-590.0, 210.0, 360.0), True),
        ("left", (-600.0, -200.0, 350.0), (-590.0, -190.0, 360.0), False),
        ("right", (-600.0, -200.0, 350.0), (-590.0, -190.0, 360.0), True),
        ("right", (-600.0, 200.0, 350.0), (-590.0, 210.0, 360.0), False),
    ],
)
def test_only_what_lies_in_the_way_is_met(
    way: Way, low: tuple[float, float, float], high: tuple[float, float, float], figure: bool
) -> None:
    post = Keepout("post", Block(low, high), 13.0)
    assert bool(judge_insertion(placed(NECKED, (post,)), Opening(way))) is figure


@pytest.mark.parametrize(
    ("way", "across"),
    [
        ("up", (0, 1)),
        ("down", (0, 1)),
        ("front", (1, 2)),
        ("rear", (1, 2)),
        ("left", (0, 2)),
        ("right", (0, 2)),
    ],
)
def test_hole_is_drawn_across_its_way(way: Way, across: tuple[int, int]) -> None:
    # hand: slab from (-722, -62, 415.5) to (-455, 63, 420), body from (-700, -40, 300) to (-477, 41, 420)
    low, high = (-722.0, -62.0, 300.0), (-455.0, 63.0, 420.0)
    (a, c), (b, d) = ((low[k], high[k]) for k in across)

    def hole(edge: float) -> Opening:
        return Opening(
            way, ((a - 3.0, b - 3.0), (c + edge, b - 3.0), (c + edge, d + 3.0), (a - 3.0, d + 3.0))
        )

    assert judge_insertion(placed(NECKED), hole(3.0)) == []
    findings = judge_insertion(placed(NECKED), hole(2.5))
    assert [finding.code for finding in findings] == ["opening"]
    assert findings[0].figure == pytest.approx(2.5)


def test_slanted_front_is_open_and_its_flanks_are_not() -> None:
    # hand: a front in two slanted halves, sides that narrow a little towards it
    outline = ((0.0, 0.0), (-20.0, 150.0), (-500.0, 200.0), (-500.0, -200.0), (-20.0, -150.0))
    assert closed_sides(outline, 0, 1) == (
        ((-20.0, 150.0), (-500.0, 200.0)),
        ((-500.0, 200.0), (-500.0, -200.0)),
        ((-500.0, -200.0), (-20.0, -150.0)),
    )
