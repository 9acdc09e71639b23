"""What the maker is told: what is short first, nothing twice."""

from boxfit.report.maker_notes import for_the_maker

FIT = "inside fit, tightest tier 1: 8.0; tier 1 upwards: 5.0 (mm of play as drawn; see fit.csv)"
LIFT = "{} kg filled: four lugs, {} kg for each; slings at most 45 degrees off upright; by local rules"
NOTES = (
    "a bay box 1: feet for left: welded along both sides, 45 mm each; they go in with the box",
    "a bay box 1: " + LIFT.format(42, 21),
    "b bay box 1: no drain: nowhere are 8 mm free below a corner of its floor",
    "b bay box 1: feet for right: welded along both sides, 45 mm each; they go in with the box",
    "main cable 70 mm2 for 300 A: bundled it carries less",
    "b bay box 1: " + LIFT.format(79, 39),
    "left rear is left unused: no wall of a box is within 150 mm",
    "a bay box 1: " + FIT,
    "b bay box 1: " + FIT.replace("8.0", "7.0"),
    "b bay box 1: " + FIT.replace("8.0", "7.0"),
    "1 sheet of steel-s235 4 mm; used for parts: 2 %",
    "1 sheet of steel-s235 6 mm; used for parts: 2 %",
)


def test_what_is_short_comes_first_and_kinds_stand_together() -> None:
    assert for_the_maker(NOTES) == (
        "b bay box 1: no drain: nowhere are 8 mm free below a corner of its floor",
        "left rear is left unused: no wall of a box is within 150 mm",
        "a bay box 1: feet for left: welded along both sides, 45 mm each; they go in with the box",
        "b bay box 1: feet for right: welded along both sides, 45 mm each",
        "a bay box 1: " + LIFT.format(42, 21),
        "b bay box 1: 79 kg filled: four lugs, 39 kg for each",
        "main cable 70 mm2 for 300 A: bundled it carries less",
        "a bay box 1: " + FIT,
        "b bay box 1: " + FIT.replace("8.0", "7.0"),
        "1 sheet of steel-s235 4 mm; used for parts: 2 %",
        "1 sheet of steel-s235 6 mm; used for parts: 2 %",
    )


def test_boxes_that_share_a_note_are_told_in_one_line() -> None:
    notes = [f"{bay} box 2: no lid screws: box.flange = 23 would do" for bay in ("front", "below: aft")]
    assert for_the_maker(notes) == ("front box 2, below: aft box 2: no lid screws: box.flange = 23 would do",)


def test_findings_of_parts_come_first_and_their_remedy_once() -> None:
    told = "fold longer than the brake: {} mm, at most 300; try: a longer brake (fold_shop.brake)"
    notes = (
        "a bay box 1: feet: welded",
        "a bay box 1: no drain: too low",
        "a bay box 1 tray wall right: " + told.format(319),
        "a bay box 1 tray wall front: " + told.format(370),
        "a bay box 1 lid: larger than the sheet, laid out on none",
        "a bay box 1 tray: larger than the sheet, laid out on none",
    )
    assert for_the_maker(notes) == (
        "a bay box 1 tray wall right: " + told.format(319),
        "a bay box 1 tray wall front: fold longer than the brake: 370 mm, at most 300",
        "a bay box 1 lid, a bay box 1 tray: larger than the sheet, laid out on none",
        "a bay box 1: no drain: too low",
        "a bay box 1: feet: welded",
    )


def test_the_same_figures_of_two_boxes_both_stay() -> None:
    """Only words without lengths are said once: two boxes may measure alike."""
    notes = [f"{bay} box 1: holes drilled: {n} of them; 9 mm at 0, 0, 0" for n, bay in ((1, "a"), (2, "b"))]
    assert for_the_maker(notes) == tuple(notes)
