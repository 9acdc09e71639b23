"""The flat parts of a box: lid, cover plate, shelves, and the bars under the shelves."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from boxfit.bay import Point
from boxfit.box.parts import CoverPlate, Gasket, LedgeBar, Lid, Plate, Shelf, Tray
from boxfit.box.sides import Side, sides_of
from boxfit.sheet.cover_blank import cover_blank, holes_from_below, notes_of_cover, seen_from_below
from boxfit.sheet.flat import Flat, Hole, Mark, from_origin, straight
from boxfit.workshop import FoldShop


def lid_flat(lid: Lid, gasket: Gasket | None = None) -> Flat:
    """The lid with its screw holes, seen from above; crosses for studs, a line for the gasket under it."""
    holes = tuple(Hole(at, lid.hole_diameter) for at in lid.holes)
    flat = _plate(lid, lid.plate, holes, tuple(Mark(at, "") for at in lid.studs), _lid_notes(lid, gasket))
    if gasket is None:
        return flat
    x, y, _ = lid.plate.low
    return replace(flat, lines=(tuple((a - x, b - y) for a, b in gasket.path),))


def _lid_notes(lid: Lid, gasket: Gasket | None) -> tuple[str, ...]:
    """What is fixed to it."""
    notes: list[str] = []
    if lid.stud:
        fixed = "stud-welded or bonded on top, not through the lid"
        notes.append(f"seen from above; crosses: {len(lid.studs)} studs M{lid.stud.thread:g}, {fixed}")
    if gasket:
        size = f"{gasket.width:g} x {gasket.thickness:g} mm"
        notes.append(f"line: middle of the gasket of {size} on the flange below")
    return tuple(notes)


def cover_plate_flat(cover: CoverPlate, shop: FoldShop) -> Flat:
    """The cover plate seen from below, its returned edges folded up towards the eye where it has any."""
    if cover.returned:
        return cover_blank(cover, shop)
    plate = Plate(seen_from_below(cover), cover.plate.bottom, cover.plate.top)
    return _plate(cover, plate, holes_from_below(cover), (), notes_of_cover(cover))


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
