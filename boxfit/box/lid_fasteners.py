"""What holds lid and cover plate: screws, washers, rivet-nuts, studs and their nuts.

Sizes are common practice, no source, or from memory where that is said.
"""

from boxfit.bay import BoxRules
from boxfit.box.fitting import Fastener
from boxfit.box.parts import BoxParts
from boxfit.box_details import STUD_HEIGHT
from boxfit.lid_details import DOME_NUT, LOW_NUT

WASHER = 1.0
"""Thickness [mm] of an M5 washer, ISO 7089, from memory."""
LENGTHS = (10.0, 12.0, 16.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0)
"""Lengths [mm] in which M5 screws are sold, ISO 7380, from memory."""
RIVET_NUTS = ((0.5, 3.0, 13.0), (3.0, 5.5, 15.5))
"""M5 rivet-nuts for a sheet over, up to [mm], and how long [mm] they are before they are set, from memory."""
DOME_THREAD = 8.0
"""How far [mm] a stud goes into an M6 dome nut, DIN 1587, from memory."""


def rivet_nut(thickness: float) -> tuple[float, float, float] | None:
    """The M5 rivet-nut for a sheet [mm]: its grip from, to, and its length [mm]; None where none grips it.

    >>> rivet_nut(2.5), rivet_nut(3.0), rivet_nut(8.0)
    ((0.5, 3.0, 13.0), (0.5, 3.0, 13.0), None)
    """
    return next((row for row in RIVET_NUTS if row[0] <= thickness <= row[1]), None)


def screw_length(rules: BoxRules) -> float:
    """Length [mm] of the lid screws: through washer, lid, pressed gasket and all of the rivet-nut.

    Where no rivet-nut grips the flange, through that and a nut of 4 mm, both told in the fastener list.
    Raises ValueError where it is longer than any that is sold.

    >>> screw_length(BoxRules("steel-s235", "folded", "rectangular", 2, 2, 22, 2, 10, 3, 4, 5, 1, 1))
    16.0
    """
    nut = rivet_nut(rules.thickness)
    held = nut[2] if nut else rules.thickness + WASHER + 4.0
    asked = WASHER + rules.rim_below_top + held
    length = next((one for one in LENGTHS if one >= asked - 1e-9), None)
    if length is None:
        raise ValueError(f"no M5 screw is as long as {asked:g} mm")
    return length


def lid_fasteners(parts: BoxParts, rules: BoxRules) -> tuple[Fastener, ...]:
    """Screws, washers and rivet-nuts of the lid, studs and nuts of the cover plate; empty rows left out."""
    return (*_screws(parts, rules), *_studs(parts, rules))


def _screws(parts: BoxParts, rules: BoxRules) -> tuple[Fastener, ...]:
    """Round the lid."""
    count, where = len(parts.lid.holes), f"{parts.name}, lid"
    if not count:
        return ()
    nut = rivet_nut(rules.thickness)
    held = (
        (Fastener(f"rivet-nut, grip {nut[0]:g} to {nut[1]:g} mm", "M5", count, where),)
        if nut
        else (Fastener("nut", "M5", count, where), Fastener("washer under the flange", "M5", count, where))
    )
    return (
        Fastener("button head screw, stainless", f"M5 x {screw_length(rules):g}", count, where),
        Fastener("washer", "M5", count, where),
        *held,
    )


def _studs(parts: BoxParts, rules: BoxRules) -> tuple[Fastener, ...]:
    """On the lid, for the cover plate."""
    count, cover, stud = len(parts.lid.studs), parts.cover_plate, parts.lid.stud
    if cover is None or stud is None:
        return ()
    where = f"{parts.name}, cover plate"
    into = LOW_NUT if cover.nut == "low nut" else min(DOME_THREAD, DOME_NUT)
    length = STUD_HEIGHT + cover.thickness + into
    fixed = "bonded" if rules.process == "printed" else "stud-welded or bonded"
    sort = f"stud with collar {stud.collar:g} x {stud.collar_height:g} mm, {fixed} on the lid"
    return (Fastener(sort, f"M6 x {length:g}", count, where), Fastener(cover.nut, "M6", count, where))
