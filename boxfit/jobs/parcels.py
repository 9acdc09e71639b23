"""Parcels: just what one shop needs, in one zip with a plain note. The same results give the same bytes."""

import csv
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from boxfit.jobs.workshop_files import WorkshopFiles

if TYPE_CHECKING:
    from boxfit.box.whole import BuiltBox
    from boxfit.sheet.stock import Wanted

CUT_SHOP, PRINT_SHOP = "cut-shop", "print-shop"
SHOPS = (CUT_SHOP, PRINT_SHOP)
NOTE = "note.txt"
DRAWINGS = "drawings"
"""Folder of the drawings among the results."""
PRINT_LISTS = ("print-pieces.csv", "gauges.csv")
"""Lists of what is printed; their column `file` names it, `quantity` says how often."""
NOT_FOR_CUTTING = ("fastener-list.csv", "order-list.csv", "templates-a3.pdf", "templates-a4.pdf")
LONG_AGO = (1980, 1, 1, 0, 0, 0)
"""The date of every file in a parcel: the earliest that the format knows."""


def refuse_unknown_shops(words: Sequence[str]) -> None:
    """Raises InputError for every word that names no shop parcels are made for."""
    from boxfit.files.near import among
    from boxfit.files.problems import InputError, Problem
    from boxfit.files.shown import shown

    rule = "must name a shop that parcels are made for"
    problems = [
        Problem("--for", "", rule, shown(word), among(word, SHOPS)) for word in words if word not in SHOPS
    ]
    if problems:
        raise InputError(problems)


def write_parcels(
    words: Sequence[str], title: str, built: "tuple[BuiltBox, ...]", made: WorkshopFiles, folder: Path
) -> tuple[str, ...]:
    """Writes a zip for each shop named into the folder of all results; returns the files' names.

    Call it last, as it takes what lies in the folder. Raises OSError where a file cannot be read or written.
    """
    from boxfit.sheet.shop_notes import cut_shop_note, print_shop_note

    written = []
    for shop in dict.fromkeys(words):
        if shop == CUT_SHOP:
            files = _for_cutting(built, made, folder)
            lists = made.lists
            note = cut_shop_note(title, built, lists.wanted, lists.notes, made.findings)
        else:
            files = _for_printing(folder)
            note = print_shop_note(title, built, _counted(folder))
        _write_zip(folder / f"{shop}.zip", note, [folder / name for name in files])
        written.append(f"{shop}.zip")
    return tuple(written)


def _for_cutting(built: "tuple[BuiltBox, ...]", made: WorkshopFiles, folder: Path) -> list[str]:
    """Flats, sheets, cut list and weld list; drawings of parts and boxes; formed parts as STEP."""
    from boxfit.box.names import file_stem
    from boxfit.box.numbers import part_numbers

    if not made.lists.wanted:
        return []
    cut, formed = _numbers(made.lists.wanted)
    numbers = part_numbers(built)
    drawn = [name for name, number in numbers.items() if number in cut]
    drawn += [one.parts.name for one in built if one.bay.box.process != "printed"]
    names = [f"{DRAWINGS}/{file_stem(name)}-drawing.pdf" for name in drawn]
    names += [f"{file_stem(name)}.step" for name, number in numbers.items() if number in formed]
    lists = [name for name in made.lists.files if name not in NOT_FOR_CUTTING]
    return [*made.flats, *lists, *(name for name in names if (folder / name).exists())]


def _numbers(wanted: "tuple[Wanted, ...]") -> tuple[set[str], set[str]]:
    """Numbers of the parts that are cut, and of those that are also folded or welded from pieces."""
    pieces: dict[str, list[Wanted]] = {}
    for one in wanted:
        pieces.setdefault(one.number.split(".")[0], []).append(one)
    formed = {number for number, all_of in pieces.items() if len(all_of) > 1 or all_of[0].flat.bends}
    return set(pieces), formed


def _for_printing(folder: Path) -> list[str]:
    """The lists of what is printed, and every file that they ask for."""
    lists = [name for name in PRINT_LISTS if (folder / name).exists()]
    return [*lists, *(file for file, _ in _asked(folder))]


def _counted(folder: Path) -> tuple[str, ...]:
    """Every file to print and how often."""
    return tuple(f"{file}: {quantity} off" for file, quantity in _asked(folder))


def _asked(folder: Path) -> list[tuple[str, int]]:
    """Files of the lists that are printed at least once."""
    found: list[tuple[str, int]] = []
    for name in PRINT_LISTS:
        if (folder / name).exists():
            with (folder / name).open(encoding="utf-8", newline="") as lines:
                found += [(row["file"], int(row["quantity"])) for row in csv.DictReader(lines)]
    return [(file, quantity) for file, quantity in found if quantity > 0]


def _write_zip(target: Path, note: str, files: Sequence[Path]) -> None:
    """The note and the files, sorted by name, without dates."""
    contents = {path.name: path.read_bytes() for path in files} | {NOTE: note.encode("utf-8")}
    with ZipFile(target, "w", ZIP_DEFLATED) as parcel:
        for name in sorted(contents):
            entry = ZipInfo(name, LONG_AGO)
            entry.compress_type = ZIP_DEFLATED
            entry.external_attr = 0o644 << 16
            entry.create_system = 3
            parcel.writestr(entry, contents[name])
