"""From the parts of a box to everything that is cut from sheet for it."""

from boxfit.bay import BoxRules
from boxfit.box.parts import BoxParts, Tray
from boxfit.sheet.cross import cross_blank
from boxfit.sheet.flat import Flat
from boxfit.sheet.panels import tray_panels
from boxfit.sheet.plates import cover_plate_flat, ledge_flats, lid_flat, shelf_flat
from boxfit.sheet.shop import Shop


def flats_of(parts: BoxParts, rules: BoxRules, shop: Shop) -> tuple[Flat, ...]:
    """Every flat of a box: tray, ledges, lid, cover plate, shelves; none where the box is printed.

    The liner is cut to size by hand and needs none.
    """
    if rules.process == "printed":
        return ()
    cover = (cover_plate_flat(parts.cover_plate),) if parts.cover_plate else ()
    shelves = tuple(shelf_flat(shelf) for shelf in parts.shelves)
    return (*tray_flats(parts.tray, shop), *ledge_flats(parts.tray), lid_flat(parts.lid), *cover, *shelves)


def tray_flats(tray: Tray, shop: Shop) -> tuple[Flat, ...]:
    """The tray without its ledges: one blank where that can be folded from a sheet, else panels."""
    blank = cross_blank(tray, shop)
    return (blank,) if blank else tray_panels(tray, shop)
