"""What README shows to be typed, and the files it tells of, read from its text."""

import re
import shlex
from pathlib import Path

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
FENCE = re.compile(r"^ *```(\w*)\n(.*?)^ *```$", re.MULTILINE | re.DOTALL)
PLACEHOLDER = re.compile(r"([A-Z]+|\*)")
ANY_WORDS = r"[^/]+"
ANY = {"BOX": r"[^/]+-box-\d+"}


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
    lines = re.split(r"^#", text, maxsplit=1, flags=re.MULTILINE)[0].splitlines()
    rows = [tuple(cell.strip() for cell in line.strip("|").split("|")) for line in lines if line[:1] == "|"]
    return tuple(rows[2:])


def named_files(text: str) -> tuple[str, ...]:
    """The files that a text names between backticks, each as a regular expression.

    An ending alone stands for the file before it, a word in capitals or a star for any words:
    >>> solid, mesh, piece = named_files("`BOX-PART.step`, `.stl`, `*-piece-N.stl`")
    >>> bool(re.fullmatch(mesh, "boot-box-1-lid.stl")), bool(re.fullmatch(solid, "gauge-1.step"))
    (True, False)
    >>> bool(re.fullmatch(piece, "dummy-module-piece-2.stl"))
    True
    """
    names: list[str] = []
    for told in re.findall(r"`([\w*./-]*\.[a-z]+)`", text):
        names.append(re.sub(r"\.\w+$", told, names[-1]) if told.startswith(".") and told[1] != "." else told)
    return tuple("".join(map(any_of, PLACEHOLDER.split(name))) for name in names)


def any_of(part: str) -> str:
    """A part of a file's name as a regular expression."""
    return ANY.get(part, ANY_WORDS) if PLACEHOLDER.fullmatch(part) else re.escape(part)


def told_files() -> tuple[str, ...]:
    """Every file of README's table of files, as seen from a layout's folder."""
    return tuple(name for row in table_of("### What each file is") for name in named_files(row[0]))
