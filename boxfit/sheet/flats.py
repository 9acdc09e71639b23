"""From the parts of a box to everything that is cut from sheet for it."""

from boxfit.bay import BoxRules
from boxfit.box.cutouts import cutouts_astray
from boxfit.box.hold_down_section import PLASTICS
from boxfit.box.parts import BoxParts, Tray
from boxfit.sheet.cross import cross_blank
from boxfit.sheet.flat import Flat
from boxfit.sheet.panels import tray_panels
from boxfit.sheet.plates import cover_plate_flat, ledge_flats, lid_flat, shelf_flat
from boxfit.sheet.strip_flat import strip_flats


def flats_of(parts: BoxParts, rules: BoxRules) -> tuple[Flat, ...]:
    """Every flat of a box: tray, ledges, lid, cover plate, shelves, strips; if printed metal strips alone.

    The liner is cut to size by hand and needs none.
    """
    strips = strip_flats(parts.fittings.strips, rules.fold_shop)
    if rules.process == "printed":
        return tuple(flat for flat in strips if flat.material not in PLASTICS)
    cover = (cover_plate_flat(parts.cover_plate, rules.fold_shop),) if parts.cover_plate else ()
    shelves = tuple(shelf_flat(shelf) for shelf in parts.shelves)
    return (
        *tray_flats(parts.tray, rules),
        *ledge_flats(parts.tray),
        lid_flat(parts.lid, parts.gasket),
        *cover,
        *shelves,
        *strips,
    )


def tray_flats(tray: Tray, rules: BoxRules) -> tuple[Flat, ...]:
    """The tray without its ledges: one blank where its floor is bent, else panels.

    Raises ValueError where a cutout lies on no wall and no floor.
    """
    if astray := cutouts_astray(tray):
        raise ValueError(f"{tray.name}: a cutout lies on no wall or floor: {astray[0].what}")
    return (cross_blank(tray, rules),) if tray.floor_radius is not None else tray_panels(tray, rules)
