"""What README shows to be typed, and the files it tells of, read from its text."""

import re
import shlex
from pathlib import Path

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
FENCE = re.compile(r"^ *```(\w*)\n(.*?)^ *```$", re.MULTILINE | re.DOTALL)
PLACEHOLDER = re.compile(r"[A-Z]+")


def shown_commands() -> tuple[str, ...]:
    """Every `boxfit ...` with its arguments, of blocks and of the running text, once, in README's order."""
    found: list[str] = []
    place = 0
    for block in FENCE.finditer(README):
        found += told_within(README[place : block.start()])
        if block[1] == "sh":
            found += typed_in(block[2])
        place = block.end()
    found += told_within(README[place:])
    return tuple(dict.fromkeys(found))


def told_within(text: str) -> list[str]:
    """Commands between backticks; a command's bare name is no command to type."""
    return [told for told in re.findall(r"`(boxfit [^`\n]+)`", text) if len(shlex.split(told)) > 2]


def typed_in(block: str) -> list[str]:
    """Commands of a block of the shell's, those behind && too."""
    lines = block.replace("\\\n", " ").splitlines()
    parts = (part.strip() for line in lines for part in re.split(r"&&|\s#", line))
    return [f"boxfit {told[1]}" for part in parts if (told := re.fullmatch(r"(?:\S*/)?boxfit (.+)", part))]


def table_of(heading: str) -> tuple[tuple[str, ...], ...]:
    """The rows of the first table under a heading, head and rule left out."""
    text = README.split(f"\n{heading}\n", 1)[1]
    lines = [line for line in re.split(r"^#", text, maxsplit=1, flags=re.MULTILINE)[0].splitlines()]
    rows = [tuple(cell.strip() for cell in line.strip("|").split("|")) for line in lines if line[:1] == "|"]
    return tuple(rows[2:])


def named_files(cell: str) -> tuple[str, ...]:
    """The files that a cell names, as patterns: words in capitals stand for anything.

    An ending alone stands for the file before it:
    >>> named_files("`BOX-PART.step`, `.stl`")
    ('*-*.step', '*-*.stl')
    """
    names: list[str] = []
    for told in re.findall(r"`([^`]+)`", cell):
        name = re.sub(r"\.\w+$", told, names[-1]) if told.startswith(".") else told
        names.append(PLACEHOLDER.sub("*", name))
    return tuple(names)
