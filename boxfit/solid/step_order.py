"""Puts a STEP file in an order that depends on its content alone.

The kernel writes colours in the order of its own memory, and numbers occurrences on from the last file it
wrote; both would make two files of the same pack differ.
"""

import re
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from OCP.Interface import Interface_InterfaceModel

COLOURS = "MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION("
"""The record that lists the coloured solids of one product; all colours follow the first of them."""
RECORD = re.compile(r"#(\d+) = (.*?);\s*$", re.MULTILINE | re.DOTALL)
REFERENCE = re.compile(r"#(\d+)")


def number_occurrences(model: "Interface_InterfaceModel") -> None:
    """Every place where a product is used gets a number of this file's own, from 1."""
    from OCP.StepRepr import StepRepr_NextAssemblyUsageOccurrence
    from OCP.TCollection import TCollection_HAsciiString

    entities = (model.Value(number) for number in range(1, model.NbEntities() + 1))
    occurrences = (one for one in entities if isinstance(one, StepRepr_NextAssemblyUsageOccurrence))
    for number, occurrence in enumerate(occurrences, start=1):
        occurrence.SetId(TCollection_HAsciiString(str(number)))


def sort_colours(path: Path) -> None:
    """Writes the file's colours anew, in the order of the solids they belong to."""
    text = path.read_text(encoding="ascii")
    start = text.rindex("\n", 0, text.index(COLOURS)) + 1
    end = text.index("ENDSEC;", start)
    path.write_text(text[:start] + _sorted(text[start:end]) + text[end:], encoding="ascii")


def _sorted(colours: str) -> str:
    r"""The records of all colours, sorted by the first solid coloured, numbered anew and one to a line.

    >>> product = "#%s = MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION('',(#%s),#1);\n"
    >>> lid, tray = product % (10, 11), product % (12, 13)
    >>> print(_sorted(lid + "#11 = STYLED_ITEM('',#7);\n" + tray + "#13 = STYLED_ITEM('',\n #5);\n"), end="")
    #10 = MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION('',(#11),#1);
    #11 = STYLED_ITEM('',#5);
    #12 = MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION('',(#13),#1);
    #13 = STYLED_ITEM('',#7);
    """
    records = {number: re.sub(r"\n\s*", "", held) for number, held in RECORD.findall(colours)}
    products = [number for number, held in records.items() if held.startswith(COLOURS)]
    order: dict[str, None] = {}
    for product in sorted(products, key=lambda number: _solid(number, records)):
        _follow(product, records, order)
    first = int(next(iter(records)))
    fresh = {number: f"#{place}" for place, number in enumerate(order, start=first)}
    lines = (
        f"{fresh[number]} = {REFERENCE.sub(lambda found: fresh.get(found[1], found[0]), records[number])};\n"
        for number in order
    )
    return "".join(lines)


def _solid(product: str, records: dict[str, str]) -> int:
    """The number of the first solid that a product's colours name."""
    styled = REFERENCE.findall(records[product])[0]
    return int(REFERENCE.findall(records[styled])[-1])


def _follow(number: str, records: dict[str, str], order: dict[str, None]) -> None:
    """Adds a record, then all colour records it refers to, each once."""
    if number in order or number not in records:
        return
    order[number] = None
    for reference in REFERENCE.findall(records[number]):
        _follow(reference, records, order)
