"""Part numbers, the same in drawings, flats and lists: bay letter and box number, then a running number."""

from collections.abc import Iterable, Iterator, Mapping
from string import ascii_uppercase

from boxfit.box.built import BuiltBox
from boxfit.box.fitting import DIRECTIONS, Bought, Strip
from boxfit.box.parts import BoxParts


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

    In the order tray, lid, cover plate, gasket, shelves, liner, strips, bought parts. Strips of a box that
    are made alike share a number, and so do bought parts that are ordered alike.
    """
    letters = bay_letters(dict.fromkeys(one.bay.name for one in built))
    found: dict[str, str] = {}
    for one in built:
        alike = _alike(one.parts)
        places: dict[object, int] = {}
        for name in names_of(one.parts):
            place = places.setdefault(alike.get(name, name), len(places) + 1)
            found.setdefault(name, f"{letters[one.bay.name]}{one.number}-{place:02d}")
    return found


def _alike(parts: BoxParts) -> dict[str, object]:
    """What every strip and bought part has in common with those that share its number."""
    found: dict[str, object] = {strip.name: made_alike(strip) for strip in parts.fittings.strips}
    for bought in parts.fittings.bought:
        found[bought_name(parts, bought)] = (bought.kind, bought.about, bought.mass)
    return found


def made_alike(strip: Strip) -> tuple[object, ...]:
    """What two strips share that are cut and folded alike, wherever they stand; a mirrored one differs.

    Holes are where they lie as the strip is seen from the inside of its folds.
    """
    legs = tuple(round(length, 3) for _, length in strip.legs)
    sheet = (strip.kind, strip.material, strip.thickness, strip.radius, round(strip.width, 3))
    return (*sheet, legs, _places(strip), strip.notes, strip.rounded)


def _places(strip: Strip) -> tuple[tuple[int, float, float, float], ...]:
    """The holes of a strip seen from inside: leg, how far to the right and up [mm], diameter."""
    turned = _is_turned(strip)
    return tuple(
        sorted(
            (
                hole.leg,
                round(strip.width - hole.along if turned else hole.along, 3),
                round(hole.across, 3),
                hole.diameter,
            )
            for hole in strip.holes
        )
    )


def _is_turned(strip: Strip) -> bool:
    """Whether its folds run to the left where it is seen from inside, its first leg upwards.

    By the turn of three ways: along the folds, along the first leg, and to where the second goes.
    """
    (a, b, c), (d, e, f), (x, y, z) = (
        DIRECTIONS[way] for way in (strip.along, strip.legs[0][0], strip.inwards)
    )
    return (b * f - c * e) * x + (c * d - a * f) * y + (a * e - b * d) * z < 0.0


def names_of(parts: BoxParts) -> Iterator[str]:
    """The names of all parts of a box, in the order in which they are numbered."""
    yield parts.tray.name
    yield parts.lid.name
    if parts.cover_plate:
        yield parts.cover_plate.name
    if parts.gasket:
        yield parts.gasket.name
    yield from (shelf.name for shelf in parts.shelves)
    if parts.liner:
        yield parts.liner.name
    yield from (strip.name for strip in parts.fittings.strips)
    yield from (bought_name(parts, bought) for bought in parts.fittings.bought)


def bought_name(parts: BoxParts, bought: Bought) -> str:
    """What a bought part is numbered by: every box may have one of that name, so the box is named first."""
    return f"{parts.name} {bought.name}"


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
