"""Rows of a comparison, invented: one unbeaten, one behind it, one that does not fit."""

from boxfit.report.compare_rows import CompareRow, LimitMargin

BEST = CompareRow(
    module="Heron 44",
    stem="heron-44",
    count=9,
    series=3,
    parallel=3,
    energy=19.8,
    mass=123.4,
    energy_by_mass=0.1605,
    volts_empty=99.0,
    volts_full=151.2,
    front_share=0.52,
    margins=(LimitMargin("gross", 102.0, "kg"), LimitMargin("front share", 0.015, "")),
    boxes=2,
    proven=True,
    best=True,
)
BEHIND = CompareRow(
    module="Wren <22>",
    stem="wren-22",
    variation=(("box.shape", "stepped"),),
    count=8,
    series=8,
    parallel=1,
    energy=9.0,
    mass=151.0,
    energy_by_mass=0.0596,
    margins=(LimitMargin("gross", -4.0, "kg"),),
    boxes=1,
    proven=False,
)
FAILS = CompareRow(module="Crane 88", stem="crane-88", reason="no whole string stays in the window")
ROWS = (BEST, FAILS, BEHIND)
