"""How wide the columns of a table are, so that it takes as little height as it can within the page. [mm]"""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import permutations
from math import ceil

from boxfit.sheet.drawing.letters import width_of

LETTERS = 2.2
"""Height of words [mm]."""
STEPS = (16.0, 8.0, 4.0, 2.0, 1.0)
"""What one column gives another at a time [mm], the most first."""
LONG = 45.0
"""A word wider than this [mm] may be broken."""
SPARE = 0.01
"""Columns are so much wider than their words [mm]."""


@lru_cache(maxsize=65536)
def _word(word: str) -> float:
    return width_of(word, LETTERS)


class Column:
    """The words of a column, cell by cell; how wide it has to be at least, and how wide it asks to be.

    A column that is `whole` is broken nowhere but in its name, which comes first.
    """

    def __init__(self, cells: Sequence[str], blank: float = 0.0, whole: bool = False) -> None:
        self._words = [[_word(word) for word in cell.split()] for cell in cells]
        self._lines: dict[float, list[int]] = {}
        space = self._space = _word("a b") - _word("a") - _word("b")
        asked = [sum(words) + space * max(0, len(words) - 1) for words in self._words]
        kept = asked[1:] if whole else ()
        words = (min(word, LONG) for words in self._words for word in words)
        self.least = max(blank, *words, *kept, 0.0) + SPARE
        self.asked = max(self.least, *asked) + SPARE

    def lines(self, wide: float) -> list[int]:
        """How many lines each cell takes in a width."""
        key = round(wide, 3)
        if key not in self._lines:
            self._lines[key] = [self._count(words, wide) for words in self._words]
        return self._lines[key]

    def _count(self, words: Sequence[float], wide: float) -> int:
        lines, end = 1, -self._space
        for word in words:
            if end + self._space + word <= wide + 1e-6:
                end += self._space + word
            else:
                lines, end = lines + ceil(max(1.0, word / wide)), word
        return lines


def broken(words: str, wide: float) -> str:
    """The words with those that are wider than a width [mm] parted.

    >>> broken("a wonderful day", 10.0)
    'a wonde rful day'
    """
    return " ".join(piece for word in words.split() for piece in _pieces(word, wide))


def _pieces(word: str, wide: float) -> Iterator[str]:
    while _word(word) > wide and len(word) > 1:
        count = next((k for k in range(len(word) - 1, 0, -1) if _word(word[:k]) <= wide), 1)
        yield word[:count]
        word = word[count:]
    yield word


def widths_within(columns: Sequence[Column], space: float) -> list[float]:
    """Widths of the columns: what they ask, or where that is more than the space, the best found within it.

    Starts from two ways to share the space, and lets one column give to another while that saves lines.

    >>> narrow, wide = Column(["one", "two"]), Column(["many words " * 9, "few"])
    >>> found = widths_within([narrow, wide], 60.0)
    >>> round(sum(found), 1), found[0] < 10.0
    (60.0, True)
    """
    asked, least = [one.asked for one in columns], [one.least for one in columns]
    if sum(asked) <= space:
        return asked
    if sum(least) >= space:
        return [wide * space / sum(least) for wide in least]
    starts = (capped(asked, least, space), spread(asked, least, space))
    return min((_eased(columns, start) for start in starts), key=lambda widths: _height(columns, widths))


def _height(columns: Sequence[Column], widths: Sequence[float]) -> int:
    """How many lines the whole table takes."""
    counts = [one.lines(wide) for one, wide in zip(columns, widths, strict=True)]
    return sum(max(row) for row in zip(*counts, strict=True))


def _eased(columns: Sequence[Column], widths: list[float]) -> list[float]:
    """Widths that no step from one column to another makes better."""
    best = _height(columns, widths)
    for step in STEPS:
        moved = True
        while moved:
            moved = False
            for giving, taking in permutations(range(len(columns)), 2):
                given = min(step, widths[giving] - columns[giving].least)
                if given <= 0.0:
                    continue
                tried = list(widths)
                tried[giving] -= given
                tried[taking] += given
                height = _height(columns, tried)
                if height < best:
                    widths, best, moved = tried, height, True
    return widths


def capped(asked: Sequence[float], least: Sequence[float], space: float) -> list[float]:
    """The widest columns cut to one width, none below its least.

    >>> [round(wide, 3) for wide in capped([10.0, 80.0, 60.0], [5.0, 9.0, 9.0], 100.0)]
    [10.0, 45.0, 45.0]
    """
    low, high = 0.0, max(asked)
    for _ in range(60):
        cap = (low + high) / 2.0
        wide = sum(max(word, min(one, cap)) for one, word in zip(asked, least, strict=True))
        low, high = (low, cap) if wide > space else (cap, high)
    return [max(word, min(one, low)) for one, word in zip(asked, least, strict=True)]


def spread(asked: Sequence[float], least: Sequence[float], space: float) -> list[float]:
    """What is left above the least shared out by how much more each asks.

    >>> spread([10.0, 90.0], [10.0, 10.0], 60.0)
    [10.0, 50.0]
    """
    part = (space - sum(least)) / (sum(asked) - sum(least))
    return [word + part * (one - word) for one, word in zip(asked, least, strict=True)]
