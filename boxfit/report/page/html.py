"""Pieces of a page as HTML text: everything that comes from files is escaped here."""

import re
from collections.abc import Container, Iterable, Sequence
from html import escape
from pathlib import Path

Cell = str | tuple[str, str]
"""A cell's words, or its words and a class of page.css."""
ASSETS = Path(__file__).parent
POLICY = "default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; img-src data: blob:"
"""The page may fetch nothing from anywhere; browsers hold it to that."""
FIGURE = re.compile(r"([+-]?\d[\d.,]*( ?(%|kg|mm|V|A|kWh|short))?|[-–]|)$")
"""A cell that is a figure, with its unit at most, or empty."""
AID = "A working aid, not an approval: local codes and licensed practice decide, and an engineer signs."


def asset(name: str) -> str:
    """The text of a file that lies beside this one."""
    return (ASSETS / name).read_text(encoding="utf-8").strip("\n")


def page(title: str, body: Sequence[str], scripts: Sequence[str]) -> str:
    """The whole file: its style and its scripts are part of it."""
    return "\n".join(
        (
            "<!DOCTYPE html>",
            '<html lang="en">',
            "<head>",
            '<meta charset="utf-8">',
            f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            '<meta name="color-scheme" content="light">',
            f"<title>{escape(title)}</title>",
            '<link rel="icon" href="data:,">',
            f"<style>\n{asset('page.css')}\n</style>",
            "</head>",
            "<body>",
            '<a class="skip" href="#content">Skip to the content</a>',
            *body,
            *(f"<script>\n{script}\n</script>" for script in scripts),
            "</body>",
            "</html>",
            "",
        )
    )


def section(name: str, heading: str, inner: Iterable[str]) -> str:
    """A part of the page under its heading."""
    held = [piece for piece in inner if piece]
    return "\n".join((f'<section id="{name}">', f"<h2>{escape(heading)}</h2>", *held, "</section>"))


def table(
    caption: str, heads: Sequence[str], rows: Sequence[Sequence[Cell]], best: Container[int] = ()
) -> str:
    """A table with its caption; the first cell of a row names it, columns of nothing but figures stand right.

    Rows whose places are among the `best` are marked. Empty where there are no rows.
    """
    if not rows:
        return ""
    right = [all(FIGURE.match(_words(row[k])) for row in rows) for k in range(len(heads))]
    head = "".join(
        f'<th scope="col"{_classes("number" if figures else "")}>{escape(one)}</th>'
        for one, figures in zip(heads, right, strict=True)
    )
    lines = [
        '<div class="wide" tabindex="0" role="region" aria-label="' + escape(caption) + '">',
        "<table>",
        f"<caption>{escape(caption)}</caption>",
        f"<thead><tr>{head}</tr></thead>",
        "<tbody>",
    ]
    for place, row in enumerate(rows):
        marked = _classes("best" if place in best else "")
        lines.append(f"<tr{marked}>{''.join(_cell(cell, k, right[k]) for k, cell in enumerate(row))}</tr>")
    return "\n".join((*lines, "</tbody>", "</table>", "</div>"))


def listed(entries: Sequence[str], heading: str = "") -> str:
    """Entries one below another; empty where there are none."""
    if not entries:
        return ""
    head = [f"<h3>{escape(heading)}</h3>"] if heading else []
    items = [f"<li>{escape(entry)}</li>" for entry in entries]
    return "\n".join((*head, "<ul>", *items, "</ul>"))


def links(sections: Sequence[tuple[str, str]]) -> str:
    """The parts of the page by name and heading, to jump to."""
    items = "".join(f'<li><a href="#{name}">{escape(heading)}</a></li>' for name, heading in sections)
    return f'<nav aria-label="On this page"><ul>{items}</ul></nav>'


def named(pairs: Sequence[tuple[str, str]]) -> str:
    """Names and what they stand for."""
    rows = [f"<div><dt>{escape(name)}</dt><dd>{escape(value)}</dd></div>" for name, value in pairs]
    return "\n".join(('<dl class="key">', *rows, "</dl>"))


def paragraph(words: str) -> str:
    """One paragraph."""
    return f"<p>{escape(words)}</p>"


def _cell(cell: Cell, place: int, figures: bool) -> str:
    kind = cell[1] if isinstance(cell, tuple) else ""
    marked = _classes(kind, "number" if figures else "")
    if place == 0:
        return f'<th scope="row"{marked}>{escape(_words(cell))}</th>'
    return f"<td{marked}>{escape(_words(cell))}</td>"


def _words(cell: Cell) -> str:
    return cell[0] if isinstance(cell, tuple) else cell


def _classes(*kinds: str) -> str:
    there = " ".join(filter(None, kinds))
    return f' class="{there}"' if there else ""
