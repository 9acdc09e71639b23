"""Clearance holes against ISO 273 as printed in trade tables."""

import pytest

from boxfit.box_details import LID_HOLE
from boxfit.lid_details import STUD_HOLE
from boxfit.standards.holes import CLEARANCE_HOLES, clearance_hole

PRINTED = {
    6.0: (6.4, 6.6, 7.0),
    8.0: (8.4, 9.0, 10.0),
    10.0: (10.5, 11.0, 12.0),
    12.0: (13.0, 13.5, 14.5),
}
"""Fine H12, medium H13, coarse H14 [mm].

Source: ISO 273 as printed by engineeringhardware.com and jlhy.miizo.top (clearance-hole tables). One page
that prints 14.0 for M12 medium is not ISO 273 and is left aside.
"""


@pytest.mark.parametrize("thread", sorted(PRINTED))
def test_printed_table(thread: float) -> None:
    assert tuple(clearance_hole(thread, series) for series in ("fine", "medium", "coarse")) == PRINTED[thread]


def test_small_threads() -> None:
    """M4 and M5 by ISO 273 from memory: not found in print."""
    assert CLEARANCE_HOLES[4.0] == {"fine": 4.3, "medium": 4.5, "coarse": 4.8}
    assert CLEARANCE_HOLES[5.0] == {"fine": 5.3, "medium": 5.5, "coarse": 5.8}


def test_what_the_lid_is_drilled_with() -> None:
    """Medium holes for its M5 screws and for the M6 studs of the cover plate."""
    assert clearance_hole(5.0) == LID_HOLE == 5.5
    assert clearance_hole(6.0) == STUD_HOLE == 6.6


def test_unknown_threads_are_refused() -> None:
    with pytest.raises(ValueError, match="M7"):
        clearance_hole(7.0)
