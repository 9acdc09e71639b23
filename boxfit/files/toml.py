"""A TOML file as plain tables, or the one reason why it cannot be had."""

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

from boxfit.files.problems import InputError, Parts, Problem, key_of
from boxfit.files.shown import plain

_MOST_BYTES = 1_000_000
_END_OF_INTEGERS = 2**63
_NESTED_TOO_DEEP = re.compile(r"""(?:\.[ \t]{0,9}["'\w-][^.,\[\]{}=#\n]{0,80}){30}""")
"""Keys of thirty parts and more: reading them takes memory by the square of their length."""
_AT_LINE = re.compile(r"(.*) \(at line (\d+), column (\d+)\)", re.DOTALL)


def read_table(path: Path, file: str) -> dict[str, object]:
    """The tables of the TOML file at `path`, called `file` in messages.

    Raises InputError where there is no such file, or it is not a TOML file of at most 1 MB.
    """
    text = _text(path, file)
    try:
        if _NESTED_TOO_DEEP.search(text):
            raise RecursionError
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise InputError([_syntax(str(error), file)]) from None
    except (ValueError, RecursionError):
        raise _unreadable(file, "holds a number too long or tables too deep", "shorten it") from None
    if giants := tuple(_giants(tables)):
        rule, remedy = "is a whole number of more than 64 bits", "shorten it"
        raise InputError([Problem(file, key_of(parts), rule, None, remedy) for parts in giants])
    return tables


def _giants(tables: dict[str, object]) -> Iterator[Parts]:
    """Where whole numbers stand that TOML has no room for (TOML 1.0, Integer)."""
    waiting: list[tuple[Parts, object]] = [((), tables)]
    while waiting:
        parts, node = waiting.pop()
        if isinstance(node, int) and not -_END_OF_INTEGERS <= node < _END_OF_INTEGERS:
            yield parts
        elif isinstance(node, dict):
            waiting.extend(((*parts, key), each) for key, each in node.items())
        elif isinstance(node, list):
            waiting.extend(((*parts, place), each) for place, each in enumerate(node))


def _syntax(message: str, file: str) -> Problem:
    found = _AT_LINE.fullmatch(message)
    said, key = (found[1], f"line {found[2]}, column {found[3]}") if found else (message, "")
    remedy = "look at that place and just before it; words stand in quotes, one key = value to a line"
    return Problem(file, key, f"is not TOML: {plain(said[:1].lower() + said[1:])}", None, remedy)


def _text(path: Path, file: str) -> str:
    try:
        if path.is_dir():
            raise _unreadable(file, "is a folder, not a file", "name the file in it")
        if not path.exists():
            raise _unreadable(file, "there is no such file", f"make the file {plain(path.name)}")
        if not path.is_file():
            raise _unreadable(file, "is not a plain file", "name a TOML file")
        with path.open("rb") as stream:
            held = stream.read(_MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "no name for a file"
        raise _unreadable(
            file, f"cannot be read: {reason.lower()}", "check the name and who may read it"
        ) from None
    if len(held) > _MOST_BYTES:
        raise _unreadable(file, "is larger than 1 MB", "name the TOML file, it holds a few lines only")
    try:
        return held.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = held[: error.start].count(b"\n") + 1
        remedy = f"save it as UTF-8 text; the first odd sign is on line {line}"
        raise _unreadable(file, "is not UTF-8 text", remedy) from None


def _unreadable(file: str, rule: str, remedy: str) -> InputError:
    return InputError([Problem(file, "", rule, None, remedy)])
