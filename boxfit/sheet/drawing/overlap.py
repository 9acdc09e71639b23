"""Whether words on a sheet can be read: none over other words, none over a line."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from boxfit.bay import Point
from boxfit.sheet.drawing.letters import corners_of
from boxfit.sheet.drawing.marks import Arc, Arrow, Circle, Line, Mark, Page, Text

TOUCH = 0.05
"""Words may come this near [mm] to one another or to a line: less is not seen."""


@dataclass(frozen=True)
class Overlap:
    """Words over something else: other words, or a line of that style."""

    words: str
    over: str
    at: Point


def overlaps(page: Page) -> tuple[Overlap, ...]:
    """Every pair of texts, and of a text and a line, arc, circle or arrowhead, that overlap on the page."""
    texts = page.texts
    boxes = np.array([shapely.Polygon(corners_of(text)) for text in texts], dtype=object)
    inner = shapely.buffer(boxes, -TOUCH)
    tree = shapely.STRtree(inner)
    found = [
        Overlap(texts[one].words, texts[other].words, texts[one].at)
        for one, other in zip(*tree.query(inner, predicate="intersects"), strict=True)
        if one < other
    ]
    drawn = [mark for mark in page.marks if not isinstance(mark, Text)]
    lines = np.array([shapely.LineString(path_of(mark)) for mark in drawn], dtype=object)
    for line, text in zip(*tree.query(lines, predicate="intersects"), strict=True):
        mark = drawn[line]
        style = "arrowhead" if isinstance(mark, Arrow) else mark.style
        found.append(Overlap(texts[text].words, style, texts[text].at))
    return tuple(found)


def outside_frame(page: Page, margins: tuple[float, float, float, float]) -> tuple[Mark, ...]:
    """Marks that reach past the frame, `margins` [mm] being those at left, bottom, right and top."""
    left, bottom, right, top = margins
    frame = (left - TOUCH, bottom - TOUCH, page.size[0] - right + TOUCH, page.size[1] - top + TOUCH)

    def within(points: Iterator[Point]) -> bool:
        return all(frame[0] <= x <= frame[2] and frame[1] <= y <= frame[3] for x, y in points)

    return tuple(
        mark
        for mark in page.marks
        if not within(iter(corners_of(mark) if isinstance(mark, Text) else path_of(mark)))
    )


def path_of(mark: Line | Arc | Circle | Arrow) -> tuple[Point, ...]:
    """The points that a mark runs through."""
    if isinstance(mark, Line):
        return (mark.start, mark.end)
    if isinstance(mark, Arrow):
        return (*mark.corners, mark.corners[0])
    return mark.points


def segments_of(mark: Line | Arc | Circle | Arrow) -> Iterator[tuple[Point, Point]]:
    """The straight lines that a mark is made of, arcs by short ones."""
    return pairwise(path_of(mark))
