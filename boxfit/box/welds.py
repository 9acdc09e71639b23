"""Every weld of a box: what meets what, how long the seam is, and how its edges are prepared.

Lengths are those of the outside: corner seams run from the top of the floor joint to the rim, flange mitres
from the corner of the walls to the flange's own, seams along a wall from corner to corner. What is welded to
the box is counted as retention (box/retention/) reckons it: feet along both sides of the leg on their wall.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import sqrt

from boxfit.bay import BoxRules
from boxfit.box.fitting import Strip
from boxfit.box.outside.foot_shapes import ON_WALL
from boxfit.box.parts import BoxParts, Plate, Tray
from boxfit.box.sides import sides_of
from boxfit.box_blank import Relief, fold_of, weld_back
from boxfit.retention.stiffened import stitches
from boxfit.standards.welding import weld_preparation


@dataclass(frozen=True)
class Weld:
    """A seam of `length` [mm], `quantity` of them alike: its name, what it joins, how edges are prepared."""

    name: str
    joins: str
    length: float
    preparation: str
    quantity: int

    @property
    def whole(self) -> float:
        """Length of all of them [mm]."""
        return self.length * self.quantity


def welds_of(parts: BoxParts, rules: BoxRules) -> tuple[Weld, ...]:
    """The welds of a box from the floor upwards, then ledges, hold-downs, feet and lugs; none where printed.

    `rules` are those that the parts were made by.
    """
    if rules.process == "printed":
        return ()
    tray = parts.tray
    joints = _of_blank(tray, rules) if tray.floor_radius is not None else _of_panels(tray)
    return (*joints, *_flange(tray), *_ledges(tray), *_fixed(parts))


def _of_blank(tray: Tray, rules: BoxRules) -> Iterator[Weld]:
    """The four corners of a tray folded from one blank."""
    band, prepared = tray.bands[0], weld_preparation(tray.material, tray.thickness)
    fold = fold_of(tray.thickness, tray.floor_radius or 0.0, rules.fold_shop)
    relief = Relief(fold, weld_back(rules.fold_shop))
    closed = "fill with weld, grind flush inside where the liner lies"
    yield Weld("corner relief", "floor and two walls", relief.angle * relief.radius, closed, 4)
    yield Weld("corner seam", "wall and wall", band.top - band.bottom - fold.outer, _open(prepared), 4)


def _of_panels(tray: Tray) -> Iterator[Weld]:
    """Floors and walls welded square to them, band by band."""
    prepared = weld_preparation(tray.material, tray.thickness)
    many = len(tray.bands) > 1
    for place, band in enumerate(tray.bands):
        floor = "floor"
        if place:
            number = f" {place}" if len(tray.bands) > 2 else ""
            floor = f"step floor{number}"
            below = tray.bands[place - 1]
            yield from _along(below, f"under the {floor}", floor, f"wall {place}", prepared)
        wall = f"wall {place + 1}" if many else "wall"
        yield from _along(band, f"{floor} seam", floor, wall, prepared)
        height = band.top - band.bottom - tray.thickness
        yield Weld("corner seam", f"{wall} and {wall}", height, _open(prepared), len(band.outline))


def _along(band: Plate, name: str, one: str, wall: str, prepared: str) -> Iterator[Weld]:
    """A seam along every wall of a band."""
    for side in sides_of(band.outline):
        yield Weld(name, f"{one} and {wall} {side.name}", side.length, prepared, 1)


def _flange(tray: Tray) -> Iterator[Weld]:
    """Strips to the walls where the flange is not folded, and the mitres."""
    if not tray.flange:
        return
    top, prepared = tray.bands[-1], weld_preparation(tray.material, tray.thickness)
    if tray.bend_radius is None:
        wall = f"wall {len(tray.bands)}" if len(tray.bands) > 1 else "wall"
        yield from _along(top, "flange seam", "flange strip", wall, prepared)
    flush = f"{prepared}; ground flush on top"
    yield Weld("flange mitre", "flange and flange", sqrt(2.0) * tray.flange, flush, len(top.outline))


def _ledges(tray: Tray) -> Iterator[Weld]:
    """The bars under the shelves, each along its lower edge."""
    fillet = "fillet along the lower edge, no bevel"
    for number, ledge in enumerate(tray.ledges, start=1):
        yield from _along(ledge.outside, "ledge seam", f"ledge {number}", "wall", fillet)


def _fixed(parts: BoxParts) -> Iterator[Weld]:
    """What is welded on: seams of the same length that join the same kinds of parts are one row."""
    counted: dict[tuple[str, str, float, str], int] = {}
    for name, joins, length, preparation, quantity in _of_strips(parts):
        alike = (name, joins, round(length, 3), preparation)
        counted[alike] = counted.get(alike, 0) + quantity
    for (name, joins, length, preparation), quantity in counted.items():
        yield Weld(name, joins, length, preparation, quantity)


Row = tuple[str, str, float, str, int]
"""Name, what it joins, length [mm], preparation, how many."""


def _of_strips(parts: BoxParts) -> Iterator[Row]:
    """Blocks on three sides, a bar's ends to their plates, feet that no screw holds, lugs, housings."""
    plated = {strip.name for strip in parts.fittings.strips if strip.kind == "doubler"}
    for strip in parts.fittings.strips:
        if strip.kind == "hold-down bracket" and strip.bar:
            around = strip.width + 2.0 * strip.legs[0][1]
            yield ("block seam", "hold-down block and wall", around, "fillet on three sides, no bevel", 1)
        elif strip.kind == "hold-down" and not strip.holes:
            profile = sum(length for _, length in strip.legs)
            yield ("end plate seam", "hold-down and its end plate", profile, "fillet, no bevel", 2)
        elif strip.kind == "doubler":
            around = 2.0 * (strip.width + strip.legs[0][1])
            yield ("doubler seam", "doubler and wall", around, "fillet all round, no bevel", 1)
        elif strip.kind == "stiffening bar":
            yield _of_bar(parts.tray, strip)
        elif strip.kind == "foot" and all(hole.leg < len(strip.legs) - 1 for hole in strip.holes):
            under = strip.name.replace(" foot, ", " doubler, ", 1)
            joins = f"foot and {'doubler' if under in plated else 'wall'}"
            yield ("foot seam", joins, ON_WALL, "fillet along both sides, no bevel", 2)
        elif strip.kind == "lifting lug":
            yield _of_lug(parts.tray, strip)
        elif strip.kind == "cable housing":
            high, wide = (length for _, length in strip.legs[:2])
            yield (
                "housing seam",
                "both ends of the cable housing",
                strip.width,
                "outside corner, no bevel",
                1,
            )
            yield (
                "housing to wall",
                "cable housing and wall",
                2.0 * (high + wide),
                "fillet outside, no bevel",
                1,
            )
        elif strip.kind == "housing block":
            around = strip.width + strip.legs[0][1]
            yield (
                "housing block seam",
                "block and cable housing",
                around,
                "fillet on two sides, no bevel",
                1,
            )


def _of_bar(tray: Tray, bar: Strip) -> Row:
    """The stitches along both sides of a stiffening bar."""
    made = stitches(bar.legs[0][1], min(tray.thickness, bar.thickness))
    on = "floor" if bar.along == "down" else "wall"
    spaced = f"stitches every {made.pitch:.1f} mm" if made.count > 1 else "whole length"
    fillet = f"fillet along both sides, {spaced}, no bevel"
    return ("bar stitch", f"stiffening bar and {on}", made.length, fillet, 2 * made.count)


def _of_lug(tray: Tray, lug: Strip) -> Row:
    """Both faces of the plate along wall and flange, and its lower end on the wall."""
    length = 2.0 * (lug.width + tray.flange) + lug.thickness
    joins = "lifting lug, wall and flange" if tray.flange > 0.0 else "lifting lug and wall"
    return ("lug seam", joins, length, "fillet along both faces and the lower end, no bevel", 1)


def _open(prepared: str) -> str:
    """Walls meet inside edge to inside edge."""
    return f"open outside corner, {prepared}"


def length_of(welds: tuple[Weld, ...]) -> float:
    """Length of all welds together [mm].

    >>> length_of((Weld("corner seam", "wall and wall", 100.0, "square edges", 4),))
    400.0
    """
    return sum(weld.whole for weld in welds)
