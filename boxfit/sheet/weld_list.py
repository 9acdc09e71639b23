"""The weld list: every seam of every box, and how much there is to weld."""

from collections.abc import Iterator

from boxfit.box.welds import welds_of
from boxfit.box.whole import BuiltBox
from boxfit.sheet.csv_text import csv_text, figure

HEADS = ("box", "seam", "joins", "quantity", "length [mm]", "all alike [mm]", "preparation")


def weld_list_csv(built: tuple[BuiltBox, ...]) -> str:
    """A row for each seam box by box, and a last one with the length of all."""
    return csv_text(HEADS, _rows(built))


def _rows(built: tuple[BuiltBox, ...]) -> Iterator[tuple[str, ...]]:
    whole = 0.0
    for one in built:
        for weld in welds_of(one.parts, one.bay.box):
            lengths = (figure(weld.length), figure(weld.whole))
            yield (one.parts.name, weld.name, weld.joins, str(weld.quantity), *lengths, weld.preparation)
            whole += weld.whole
    yield ("all boxes", "", "", "", "", figure(whole), "")
