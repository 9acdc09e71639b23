"""The flat parts of a box: lid, cover plate, shelves, and the bars under the shelves."""

from collections import Counter
from collections.abc import Iterator

from boxfit.bay import Point
from boxfit.box.parts import CoverPlate, LedgeBar, Lid, Plate, Shelf, Tray
from boxfit.sheet.flat import Flat, Hole, Mark, from_origin, straight
from boxfit.sheet.sides import Side, sides_of


def lid_flat(lid: Lid) -> Flat:
    """The lid with its screw holes, seen from above."""
    holes = tuple(Hole(at, lid.hole_diameter) for at in lid.holes)
    return _plate(lid, lid.plate, holes)


def cover_plate_flat(cover: CoverPlate) -> Flat:
    """The cover plate; a cross where each stud is fixed on its underside, which is the side seen."""
    low, high = cover.plate.low, cover.plate.high
    wide = low[0] + high[0]
    mirrored = Plate(
        tuple(reversed([(wide - x, y) for x, y in cover.plate.outline])), cover.plate.bottom, cover.plate.top
    )
    marks = tuple(Mark((wide - x, y), "") for x, y in cover.studs)
    studs = f"seen from below; crosses: {len(marks)} studs {cover.stud_diameter:g} mm round"
    notes = (f"{studs}, {cover.stud_height:g} mm high",)
    return _plate(cover, mirrored, (), marks, notes)


def shelf_flat(shelf: Shelf) -> Flat:
    """A shelf, seen from above."""
    return _plate(shelf, shelf.plate)


def _plate(
    part: Lid | CoverPlate | Shelf,
    plate: Plate,
    holes: tuple[Hole, ...] = (),
    marks: tuple[Mark, ...] = (),
    notes: tuple[str, ...] = (),
) -> Flat:
    """A plain plate."""
    (x, y, bottom), (a, b, top) = plate.low, plate.high
    formed = (a - x, b - y, top - bottom)
    contours = (straight(plate.outline),)
    return from_origin(
        Flat(part.name, part.material, formed[2], contours, formed, holes, marks=marks, notes=notes)
    )


def ledge_flats(tray: Tray) -> Iterator[Flat]:
    """The bars under the shelves, those of one length together, longest first.

    Those along front and rear walls run through at every corner, the others end at them.
    """
    for number, ledge in enumerate(tray.ledges, start=1):
        lengths = Counter(round(_bar_length(side, ledge), 6) for side in sides_of(ledge.outside.outline))
        height = ledge.outside.top - ledge.outside.bottom
        usable = sorted((length for length in lengths if length > 0.0), reverse=True)
        for place, length in enumerate(usable, start=1):
            corners: tuple[Point, ...] = ((0.0, 0.0), (length, 0.0), (length, height), (0.0, height))
            yield Flat(
                name=f"{tray.name} ledge {number} bar {place}",
                material=tray.material,
                thickness=ledge.width,
                contours=(straight(corners),),
                formed=(length, ledge.width, height),
                notes=(f"flat bar {ledge.width:g} x {height:g} mm; welded to the wall under shelf {number}",),
                quantity=lengths[length],
                bar=True,
            )


def _bar_length(side: Side, ledge: LedgeBar) -> float:
    """How long [mm] the bar along one side is."""
    if side.name.split()[0] in ("front", "rear"):
        return side.length + ledge.width * side.turns.count(-1)
    return side.length - ledge.width * side.turns.count(1)
