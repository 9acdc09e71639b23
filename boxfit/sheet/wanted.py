"""Every flat of a car, its number and who cuts it: what cut list, stock sheets and orders are made from."""

from boxfit.box.numbers import part_numbers, with_pieces
from boxfit.box.whole import BuiltBox
from boxfit.sheet.flats import flats_of
from boxfit.sheet.stock import Wanted


def wanted_of(built: tuple[BuiltBox, ...]) -> tuple[Wanted, ...]:
    """All flats box by box, numbered as in the drawings; pieces of a part count on behind its number."""
    cut = [(flat, one.bay.box.fold_shop) for one in built for flat in flats_of(one.parts, one.bay.box)]
    numbers = with_pieces(part_numbers(built), (flat.name for flat, _ in cut))
    return tuple(Wanted(flat, numbers.get(flat.name, ""), shop) for flat, shop in cut)
