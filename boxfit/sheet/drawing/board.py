"""A sheet under way: it knows where words stand and lines run, so that new words find a free place."""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boxfit.sheet.drawing.letters import corners_of
from boxfit.sheet.drawing.marks import Mark, Page, Text
from boxfit.sheet.drawing.overlap import segments_of
from boxfit.sheet.drawing.paper import Paper, frame_marks
from boxfit.sheet.drawing.title import TITLE_HEIGHT, TITLE_WIDTH, Title, title_marks

AIR = 0.4
"""Words keep at least this clear [mm] of lines and of other words."""
Area = tuple[float, float, float, float]
"""Left, bottom, right and top [mm]."""


@dataclass(frozen=True)
class Placing:
    """One way to set words: with the lines that lead to them."""

    text: Text
    lines: tuple[Mark, ...] = ()


class Board:
    """A sheet with its frame and title block, to which marks are added."""

    def __init__(self, paper: Paper, title: Title) -> None:
        self.paper = paper
        self._marks: list[Mark] = []
        self._segments: list[tuple[float, float, float, float]] = []
        self._words: list[Area] = []
        self._lined: NDArray[np.float64] = np.zeros((0, 4))
        left, bottom, right, top = paper.frame
        self.space: Area = (left + 1.0, bottom + 1.0, right - 1.0, top - 1.0)
        self.title: Area = (right - TITLE_WIDTH, bottom, right, bottom + TITLE_HEIGHT)
        self.add(frame_marks(paper))
        self.add(title_marks(paper, title))

    def add(self, marks: Iterable[Mark]) -> None:
        """Marks whose place is settled."""
        for mark in marks:
            self._marks.append(mark)
            if isinstance(mark, Text):
                self._words.append(area_of(mark))
            else:
                self._segments += [(*one, *other) for one, other in segments_of(mark)]

    def place(self, ways: Iterable[Placing]) -> bool:
        """Sets words the first way in which nothing overlaps; else the first way of all, and says False."""
        first: Placing | None = None
        for way in ways:
            first = first or way
            if self.is_free(way):
                self.add((way.text, *way.lines))
                return True
        if first:
            self.add((first.text, *first.lines))
        return False

    def is_free(self, way: Placing) -> bool:
        """Whether words stand clear of everything, and their lines of all words."""
        area = area_of(way.text)
        left, bottom, right, top = wider = _grown(area, AIR)
        in_sheet = self.space[0] <= left and self.space[1] <= bottom
        if not (in_sheet and right <= self.space[2] and top <= self.space[3]):
            return False
        if not self.is_clear(wider):
            return False
        words = np.array([*self._words, area])
        own = [pair for line in way.lines if not isinstance(line, Text) for pair in segments_of(line)]
        return not any(crossed((*one, *other), words, AIR / 2.0).any() for one, other in own)

    def is_clear(self, area: Area) -> bool:
        """Whether no word and no line reaches into an area [mm] of the sheet."""
        words = np.array([self.title, *self._words])
        return not (meeting(area, words).any() or crossing(area, self._all_segments()).any())

    def page(self) -> Page:
        """The finished sheet."""
        return Page((self.paper.width, self.paper.height), tuple(self._marks))

    def _all_segments(self) -> NDArray[np.float64]:
        """All lines as an array, made anew when some were added."""
        if len(self._lined) != len(self._segments):
            self._lined = np.array(self._segments).reshape(-1, 4)
        return self._lined


def area_of(text: Text) -> Area:
    """The upright rectangle round words [mm]."""
    xs, ys = zip(*corners_of(text), strict=True)
    return (min(xs), min(ys), max(xs), max(ys))


def meeting(area: Area, others: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Which upright rectangles share more than an edge with one."""
    across = (area[2] > others[:, 0]) & (others[:, 2] > area[0])
    return np.asarray(across & (area[3] > others[:, 1]) & (others[:, 3] > area[1]))


def crossed(
    segment: tuple[float, float, float, float], areas: NDArray[np.float64], by: float
) -> NDArray[np.bool_]:
    """Which upright rectangles, grown by so much [mm], a segment runs through.

    >>> crossed((-1.0, 0.5, 3.0, 0.5), np.array([[0.0, 0.0, 2.0, 1.0], [0.0, 2.0, 2.0, 3.0]]), 0.1).tolist()
    [True, False]
    """
    enter, leave = np.zeros(len(areas)), np.ones(len(areas))
    for axis in (0, 1):
        low, high = areas[:, axis] - by, areas[:, axis + 2] + by
        start, way = segment[axis], segment[axis + 2] - segment[axis]
        if abs(way) < 1e-9:
            leave = np.where((start >= low) & (start <= high), leave, -1.0)
        else:
            one, other = (low - start) / way, (high - start) / way
            enter = np.maximum(enter, np.minimum(one, other))
            leave = np.minimum(leave, np.maximum(one, other))
    return np.asarray(enter <= leave)


def _grown(area: Area, by: float) -> Area:
    return (area[0] - by, area[1] - by, area[2] + by, area[3] + by)


def crossing(area: Area, segments: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Which segments (x, y, to x, to y) [mm] run through an upright rectangle: cut to it, something is left.

    >>> crossing((0.0, 0.0, 2.0, 1.0), np.array([[-1.0, 0.5, 3.0, 0.5], [-1.0, 2.0, 3.0, 2.0]])).tolist()
    [True, False]
    """
    enter, leave = np.zeros(len(segments)), np.ones(len(segments))
    for axis in (0, 1):
        start, way = segments[:, axis], segments[:, axis + 2] - segments[:, axis]
        still = np.abs(way) < 1e-9
        safe = np.where(still, 1.0, way)
        one, other = (area[axis] - start) / safe, (area[axis + 2] - start) / safe
        within = (start >= area[axis]) & (start <= area[axis + 2])
        low = np.where(still, np.where(within, 0.0, 2.0), np.minimum(one, other))
        high = np.where(still, np.where(within, 1.0, -2.0), np.maximum(one, other))
        enter, leave = np.maximum(enter, low), np.minimum(leave, high)
    return np.asarray(enter <= leave)
