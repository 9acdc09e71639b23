"""The last sheet of a box: what is bought, fasteners, and what the fittings ask for, in words."""

from collections.abc import Iterator, Mapping

from boxfit.box.numbers import bought_name
from boxfit.box.whole import BuiltBox
from boxfit.sheet.drawing.arrange import arranged
from boxfit.sheet.drawing.marks import Page
from boxfit.sheet.drawing.tables import Table
from boxfit.sheet.drawing.title import Title


def lists_page(built: BuiltBox, numbers: Mapping[str, str], title: Title) -> Page | None:
    """The sheet of lists; None where there is nothing to list."""
    items = (bought_table(built, numbers), fastener_table(built), tuple(_notes(built)))
    if not any(item.rows if isinstance(item, Table) else item for item in items):
        return None
    return arranged(lambda _: (0.0, 0.0), items).board(title).page()


def bought_table(built: BuiltBox, numbers: Mapping[str, str]) -> Table:
    """What is bought, with what to order."""
    rows: dict[str, list[str]] = {}
    for one in built.parts.fittings.bought:
        number = numbers[bought_name(built.parts, one)]
        row = rows.setdefault(number, [number, one.name, "0", one.about])
        row[2] = str(int(row[2]) + 1)
        row[1] = one.name if row[2] == "1" else one.kind
    return Table(
        "Bought", ("part no.", "name", "qty", "what to order"), tuple(map(tuple, rows.values())), 80.0
    )


def fastener_table(built: BuiltBox) -> Table:
    """Screws, nuts and the like."""
    rows = tuple((str(one.count), one.what, one.thread, one.where) for one in built.parts.fittings.fasteners)
    return Table("Fasteners and packers", ("qty", "what", "size", "where"), rows, 60.0)


def _notes(built: BuiltBox) -> Iterator[str]:
    """What was told when fittings were placed."""
    for note in dict.fromkeys((*built.parts.notes, *built.parts.fittings.notes)):
        yield note.removeprefix(f"{built.parts.name}: ")
