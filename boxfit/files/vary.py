"""Keys of a car's files set to other values, before anything in them is believed: what `--vary` asks for."""

import re
import tomllib
from collections.abc import Iterator, Sequence
from copy import deepcopy
from dataclasses import dataclass
from itertools import product
from math import prod
from pathlib import PurePath

from boxfit.files.near import did_you_mean
from boxfit.files.problems import InputError, Parts, Problem
from boxfit.files.said_car import SaidCar
from boxfit.files.shown import plain, shown

OPTION = "--vary"
MOST_CARS = 1000
"""Combinations of values that are still read: every one is a car of its own (our own choice)."""
_EXAMPLE = "write for example: --vary box.shape=rectangular,stepped or --vary front.box.tiers=1,2"
_PART = re.compile(r"""(?P<name>[A-Za-z0-9_-]+|"[^"]+")(?P<places>(?:\[[0-9]{1,6}\])*)""")
_BARE_WORD = re.compile(r"[A-Za-z][A-Za-z0-9_.-]*")
_OPENS, _CLOSES = "[{", "]}"
_MOST_PARTS = 12


@dataclass(frozen=True)
class Change:
    """The key at `parts` of one file set to `value`; `bay` is the stem of the bay's file, empty for car.toml.

    `key` and `told` are the key and the value as a person wrote them.
    """

    bay: str
    parts: Parts
    value: object
    key: str
    told: str

    def __str__(self) -> str:
        return f"{self.key}={self.told}"


def combinations(words: Sequence[str]) -> tuple[tuple[Change, ...], ...]:
    """Every combination of the values that the words `KEY=VALUE,VALUE` name, the last key changing first.

    One combination without any change where there are no words. Raises InputError with all that is wrong.

    >>> for changes in combinations(["box.tiers=1,2", "front.survey.tolerance=3.0,5.0"]):
    ...     print(*changes)
    box.tiers=1 front.survey.tolerance=3.0
    box.tiers=1 front.survey.tolerance=5.0
    box.tiers=2 front.survey.tolerance=3.0
    box.tiers=2 front.survey.tolerance=5.0
    """
    problems: list[Problem] = []
    choices = [_choices(word, problems) for word in words]
    keys = [found[0].key for found in choices if found]
    for key in dict.fromkeys(key for place, key in enumerate(keys) if key in keys[:place]):
        problems.append(_wrong(f"varies {plain(key)} twice", "name all its values in one", None))
    if not problems and (count := prod(map(len, choices))) > MOST_CARS:
        rule = f"makes {count} cars of one; at most {MOST_CARS} are looked at in one go"
        problems.append(_wrong(rule, "name fewer values", None))
    if problems:
        raise InputError(problems)
    return tuple(product(*choices))


def changed(
    raw: dict[str, object], bay: str, changes: Sequence[Change], problems: list[Problem]
) -> dict[str, object]:
    """The tables of one file with its changes made; `problems` grows by those that have no place in it.

    `bay` is the stem of a bay's file, empty for car.toml.
    """
    own = [change for change in changes if change.bay.casefold() == bay.casefold()]
    if not own:
        return raw
    tables = deepcopy(raw)
    for change in own:
        if fault := _set(tables, change):
            problems.append(fault)
    return tables


def unknown_bays(changes: Sequence[Change], bays: object) -> Iterator[Problem]:
    """The changes that name neither a key of car.toml nor a bay's file; `bays` are those that car.toml names.

    A change of that key may name further ones.
    """
    lists = [bays, *(change.value for change in changes if change.parts == ("bays",))]
    files = [file for one in lists if isinstance(one, list) for file in one if isinstance(file, str)]
    stems = tuple(dict.fromkeys(map(bay_stem, files)))
    for change in changes:
        if change.bay and change.bay.casefold() not in [stem.casefold() for stem in stems]:
            known = (*stems, *_car_keys())
            listed = f"a bay here is {', '.join(map(plain, stems)) or 'none'}; a key of car.toml begins with "
            remedy = f"{did_you_mean(change.bay, known)} {listed}{', '.join(_car_keys())}".lstrip()
            rule = f"{plain(change.bay)} is neither a key of car.toml nor the name of a bay's file"
            yield _wrong(rule, remedy, None)


def bay_stem(file: str) -> str:
    """What a change calls the bay of a file.

    >>> bay_stem("front.toml")
    'front'
    """
    return PurePath(file).stem


def _car_keys() -> tuple[str, ...]:
    return tuple(field.alias or name for name, field in SaidCar.model_fields.items())


def _choices(word: str, problems: list[Problem]) -> tuple[Change, ...]:
    """The changes of one word, one for each value; `problems` grows where there are none to be had."""
    key, sign, text = (part.strip() for part in word.partition("="))
    parts = _parts(key)
    values = _values(text)
    if not sign or parts is None or not values:
        problems.append(_wrong("must be KEY=VALUE,VALUE", _EXAMPLE, word))
        return ()
    first = parts[0]
    bay = "" if first in _car_keys() or len(parts) == 1 else str(first)
    found: dict[str, Change] = {}
    for told in values:
        value = _value(told)
        if value is None:
            remedy = f'values stand as in a file: a number, true, [1, 2], "some words"; {_EXAMPLE}'
            problems.append(_wrong(f"{plain(key)}: is no value", remedy, told))
        found.setdefault(told, Change(bay, parts[1:] if bay else parts, value, key, told))
    return tuple(found.values())


def _parts(key: str) -> Parts | None:
    """The way to a value: keys, and places of lists, which a person counts from 1."""
    parts: list[str | int] = []
    rest = key
    while rest:
        found = _PART.match(rest)
        if found is None or (found.end() < len(rest) and rest[found.end()] != "."):
            return None
        parts.append(found["name"].strip('"'))
        parts.extend(int(place) - 1 for place in re.findall(r"[0-9]+", found["places"]))
        rest, before = rest[found.end() + 1 :], rest
        if not rest and before.endswith("."):
            return None
    return tuple(parts) if 0 < len(parts) <= _MOST_PARTS and -1 not in parts else None


def _values(text: str) -> tuple[str, ...]:
    """The text cut at the commas that stand in no list, table or quotes; empty where one is lacking."""
    pieces, depth, quote = [""], 0, ""
    for sign in text:
        if quote:
            quote = "" if sign == quote else quote
        elif sign in "\"'":
            quote = sign
        depth += 0 if quote else (sign in _OPENS) - (sign in _CLOSES)
        if sign == "," and not quote and depth == 0:
            pieces.append("")
        else:
            pieces[-1] += sign
    values = tuple(piece.strip() for piece in pieces)
    return values if all(values) else ()


def _value(text: str) -> object:
    """The value as TOML has it, a bare word as text; None where it is neither."""
    try:
        table = tomllib.loads(f"value = {text}")
    except (tomllib.TOMLDecodeError, ValueError, RecursionError):
        return text if _BARE_WORD.fullmatch(text) else None
    return table["value"] if set(table) == {"value"} else None


def _set(tables: dict[str, object], change: Change) -> Problem | None:
    """Makes the change in the tables; what is wrong where they have no place for it."""
    node: object = tables
    for part, after in zip(change.parts, change.parts[1:], strict=False):
        if isinstance(node, dict) and isinstance(part, str):
            node = node.setdefault(part, {}) if isinstance(after, str) else node.get(part)
        elif isinstance(node, list) and isinstance(part, int) and part < len(node):
            node = node[part]
        else:
            node = None
    match node, change.parts[-1]:
        case dict(), str(key):
            node[key] = change.value
        case list(), int(place) if place < len(node):
            node[place] = change.value
        case _:
            remedy = "name a key of a table, or an entry that the file has; entries count from 1"
            return _wrong(f"{plain(change.key)} has no place in the file", remedy, None)
    return None


def _wrong(rule: str, remedy: str, got: str | None) -> Problem:
    return Problem(OPTION, "", rule, None if got is None else shown(got), remedy)
