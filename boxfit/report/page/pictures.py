"""Drawings that the report and the sheets wrote as SVG, made part of a page."""

import re
from html import escape

DECIMALS = re.compile(r"(\.\d\d)\d+")
NAMED = re.compile(r'\b(id="|href="#|url\(#)')
HEAD = re.compile(r"^.*?(?=<svg\b)", re.DOTALL)
TAG = re.compile(r"<svg\b[^>]*>", re.DOTALL)
OWN_STYLE = re.compile(r"<style\b.*?</style>", re.DOTALL)
OWN_TITLE = re.compile(r"<title\b.*?</title>", re.DOTALL)
BOX = re.compile(r'viewBox="([^"]*)"')
FONT = re.compile(r'font-family="([^"]*)"')


def inlined(svg: str, stem: str, title: str) -> str:
    """An SVG file's drawing as a figure of the page, with `title` as its words for those who do not see it.

    Names within the drawing get `stem` in front, so that those of several drawings do not meet; lengths along
    paths are cut to hundredths of the drawing's unit, which no print shows.
    """
    text = HEAD.sub("", svg.strip(), count=1)
    text = OWN_TITLE.sub("", OWN_STYLE.sub("", text))
    text = NAMED.sub(lambda found: f"{found[1]}{stem}-", text)
    text = re.sub(r'\bd="[^"]*"', lambda found: DECIMALS.sub(r"\1", found[0]), text)
    tag = TAG.search(text)
    assert tag is not None, "a drawing is an SVG file"
    text = TAG.sub(lambda found: _tag(found[0], stem, title), text, count=1)
    return "\n".join(
        (f'<figure id="drawing-{stem}">', text, f"<figcaption>{escape(title)}</figcaption>", "</figure>")
    )


def _tag(tag: str, stem: str, title: str) -> str:
    """The drawing's own tag: its box without a size, so that the page's width decides."""
    box, font = BOX.search(tag), FONT.search(tag)
    seen = f' viewBox="{box[1]}"' if box else ""
    set_in = f' font-family="{font[1]}"' if font else ""
    name = f"title-of-{stem}"
    return (
        f'<svg role="img" aria-labelledby="{name}"{seen}{set_in}><title id="{name}">{escape(title)}</title>'
    )
