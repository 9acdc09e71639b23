"""Clearance holes for metric screws, ISO 273 [mm].

M6 to M12: ISO 273 as printed in trade tables; M4 and M5 are from memory.
"""

from typing import Literal

Series = Literal["fine", "medium", "coarse"]

CLEARANCE_HOLES: dict[float, dict[Series, float]] = {
    4.0: {"fine": 4.3, "medium": 4.5, "coarse": 4.8},  # from memory
    5.0: {"fine": 5.3, "medium": 5.5, "coarse": 5.8},  # from memory
    6.0: {"fine": 6.4, "medium": 6.6, "coarse": 7.0},
    8.0: {"fine": 8.4, "medium": 9.0, "coarse": 10.0},
    10.0: {"fine": 10.5, "medium": 11.0, "coarse": 12.0},
    12.0: {"fine": 13.0, "medium": 13.5, "coarse": 14.5},
}
"""Hole [mm] by thread [mm] and series: fine is H12, medium H13, coarse H14."""


def clearance_hole(thread: float, series: Series = "medium") -> float:
    """The hole [mm] that a screw of that thread [mm] goes through freely, ISO 273.

    Raises ValueError for a thread that the table does not hold.

    >>> clearance_hole(8.0), clearance_hole(6.0, "fine")
    (9.0, 6.4)
    """
    if thread not in CLEARANCE_HOLES:
        raise ValueError(f"no clearance hole is known for M{thread:g}")
    return CLEARANCE_HOLES[thread][series]
