"""Tables of a file with a line of help to every key; what is not yet said stands there as a comment.

A comment of words begins with "# ", a key or heading to be taken up with "#" alone.
"""

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from boxfit.files.checked import tables_in
from boxfit.files.examples import ON_ONE_LINE, Table
from boxfit.files.said import Said

_HELP_FROM = 36
"""The column of help, as in the demo files."""


@dataclass(frozen=True)
class Part:
    """A table to be written: under its heading, as the model has it.

    `said` is what stands there, None where all of it is only an example. `many` is true for a table that
    there may be several of.
    """

    heading: str
    model: type[Said]
    sample: Table
    said: Table | None
    help: str
    many: bool = False


def value_text(value: object) -> str:
    """The value as TOML.

    >>> value_text([1.5, True, 'a "b"', {"k": 2}])
    '[1.5, true, "a \\\\"b\\\\"", { k = 2 }]'
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, list | tuple):
        return f"[{', '.join(value_text(each) for each in value)}]"
    if isinstance(value, dict):
        return f"{{ {', '.join(f'{_bare(key)} = {value_text(each)}' for key, each in value.items())} }}"
    return repr(value)


def _bare(key: str) -> str:
    """The key, in quotes where TOML asks for them."""
    return key if key.isascii() and key.replace("-", "").replace("_", "").isalnum() else value_text(key)


def key_lines(key: str, value: object, words: str, said: bool) -> list[str]:
    """A key with its help, beside it where that leaves room, else above it."""
    line = f"{'' if said else '#'}{key} = {value_text(value)}"
    if len(line) < _HELP_FROM:
        return [f"{line.ljust(_HELP_FROM)}# {words}"]
    return [f"# {words}", line]


def part_lines(part: Part) -> Iterator[str]:
    """An empty line, the heading, every key of the sample or said, and then the tables within."""
    brackets = f"[[{part.heading}]]" if part.many else f"[{part.heading}]"
    yield ""
    yield f"{'#' if part.said is None else ''}{brackets}".ljust(_HELP_FROM) + f"# {part.help}"
    said = part.said or {}
    within: list[tuple[str, list[Table]]] = []
    helps = {field.alias or name: field.description or "" for name, field in part.model.model_fields.items()}
    for key, words in helps.items():
        value = said.get(key, part.sample.get(key))
        if value is None:
            continue
        if key not in ON_ONE_LINE and (tables := _tables(value)):
            within.append((key, tables))
        else:
            yield from key_lines(key, value, words, key in said)
    for key, tables in within:
        for table in tables:
            many = isinstance(part.sample.get(key), list)
            yield from part_lines(_within(part, key, table, helps[key], many))


def _tables(value: object) -> list[Table]:
    """The tables that the value is, or is a list of; none where it is anything else."""
    each = value if isinstance(value, list) else [value]
    tables = [one for one in each if isinstance(one, dict)]
    return tables if len(tables) == len(each) else []


def _within(part: Part, key: str, value: Table, words: str, many: bool) -> Part:
    """A table within a table."""
    field = next(field for name, field in part.model.model_fields.items() if (field.alias or name) == key)
    model = tables_in(field.annotation)[0]
    said = value if part.said is not None and key in part.said else None
    return Part(f"{part.heading}.{key}", model, value, said, words, many)


def text_of(head: Sequence[str], parts: Sequence[Part]) -> str:
    """A whole file."""
    return "\n".join([*head, *(line.rstrip() for part in parts for line in part_lines(part))]) + "\n"
