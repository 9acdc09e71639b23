"""What the way in costs is told: what stands without it, what the box lacks, and whether tilting helps."""

from dataclasses import replace

from boxfit.bay import Opening, Prism
from boxfit.search.at_the_opening import at_the_opening
from boxfit.search.pack import PackSearch
from tests.surfaces import as_shell
from tests.test_demos import demo

CAR, MODULE = demo("dunlin-850", "heron-44")
HATCH = Opening("up", ((-300.0, -250.0), (100.0, -250.0), (100.0, 250.0), (-300.0, 250.0)))


def test_nothing_is_told_where_the_way_in_costs_nothing() -> None:
    assert at_the_opening(PackSearch(CAR, MODULE)) == ()


def test_a_hatch_too_small_is_told_with_what_the_box_lacks() -> None:
    bay = replace(CAR.bays[0], opening=HATCH, keepouts=())
    told = " ".join(at_the_opening(PackSearch(replace(CAR, bays=(bay,)), MODULE)))
    assert "modules would stand here, but no more than" in told
    assert "mm smaller" in told
    assert "tilted" in told
    assert "Two boxes, each" in told


def test_a_fine_survey_is_told_not_to_be_looked_at() -> None:
    room = CAR.bays[0].room
    assert isinstance(room, Prism)
    bay = as_shell(replace(CAR.bays[0], opening=HATCH, keepouts=()), 30.0)
    told = at_the_opening(PackSearch(replace(CAR, bays=(bay,)), MODULE))
    assert len(told) == 1
    assert "not looked at" in told[0]
