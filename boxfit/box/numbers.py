"""Part numbers, the same in drawings, flats and lists: bay letter and box number, then a running number."""

from collections.abc import Iterable, Iterator, Mapping
from string import ascii_uppercase

from boxfit.box.parts import BoxParts
from boxfit.box.whole import BuiltBox


def bay_letters(names: Iterable[str]) -> dict[str, str]:
    """A letter for each bay: the first of its name that no bay before it has, else the next free one.

    >>> bay_letters(["front bay", "rear bay", "flank"])
    {'front bay': 'F', 'rear bay': 'R', 'flank': 'L'}
    """
    found: dict[str, str] = {}
    for place, name in enumerate(names, start=1):
        own = [sign for sign in name.upper() if sign in ascii_uppercase]
        free = [sign for sign in (*own, *ascii_uppercase) if sign not in found.values()]
        found.setdefault(name, free[0] if free else f"N{place}")
    return found


def part_numbers(built: tuple[BuiltBox, ...]) -> Mapping[str, str]:
    """The number of every part by its name: F1-01 is the tray of the front bay's first box.

    In the order tray, lid, cover plate, shelves, liner, strips, bought parts; parts of one name share one.
    """
    letters = bay_letters(dict.fromkeys(one.bay.name for one in built))
    found: dict[str, str] = {}
    for one in built:
        names = dict.fromkeys(names_of(one.parts))
        for place, name in enumerate(names, start=1):
            found.setdefault(name, f"{letters[one.bay.name]}{one.number}-{place:02d}")
    return found


def names_of(parts: BoxParts) -> Iterator[str]:
    """The names of all parts of a box, in the order in which they are numbered."""
    yield parts.tray.name
    yield parts.lid.name
    if parts.cover_plate:
        yield parts.cover_plate.name
    yield from (shelf.name for shelf in parts.shelves)
    if parts.liner:
        yield parts.liner.name
    yield from (strip.name for strip in parts.fittings.strips)
    yield from (bought.name for bought in parts.fittings.bought)


def with_pieces(numbers: Mapping[str, str], names: Iterable[str]) -> dict[str, str]:
    """The numbers of parts and of the pieces that some are made of, such as a tray's panels and ledge bars.

    A piece's name is that of its part and more words; it counts on behind the part's number. Names that
    belong to no part get none.

    >>> numbers = {"front bay box 1 tray": "F1-01"}
    >>> with_pieces(numbers, ["front bay box 1 tray floor", "front bay box 1 tray wall left"])
    {'front bay box 1 tray floor': 'F1-01.1', 'front bay box 1 tray wall left': 'F1-01.2'}
    """
    found: dict[str, str] = {}
    counts: dict[str, int] = {}
    for name in dict.fromkeys(names):
        if name in numbers:
            found[name] = numbers[name]
            continue
        part = max((one for one in numbers if name.startswith(f"{one} ")), key=len, default="")
        if part:
            counts[part] = counts.get(part, 0) + 1
            found[name] = f"{numbers[part]}.{counts[part]}"
    return found
