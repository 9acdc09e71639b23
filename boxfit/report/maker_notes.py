"""What the maker should know, what matters first: what is left out or short, then the rest by kind."""

import re
from collections.abc import Sequence

UNMADE = ("not built", "larger than the sheet", "; try: ")
"""Words of notes that tell of something a shop cannot make as it is: these come first."""
SHORT = (
    "no lid screws",
    "no hold-downs",
    "not held",
    "jams",
    "may jam",
    "does not take",
    "no box takes",
    "no room for the ",
    "no room for lifting",
    "no breather",
    "no drain",
    "no [[mount]]",
    "nothing bolts it",
    "nothing to stand on",
    "left unused",
    "left out",
    "without returned edges",
    "are needed",
    "no way found",
)
"""Words of notes that tell of something left out, or not as it was asked for: these come next."""
FIGURES = re.compile(r"mm|:|\)")
"""What only a box's own words hold."""
REMEDY = "try: "
OF_BOX = re.compile(r"(.+? box \d+[^:]*): (.+)", re.DOTALL)
"""A note of a box or of one of its parts."""


def for_the_maker(notes: Sequence[str]) -> tuple[str, ...]:
    """Every note once: what is short first, notes of one kind together, boxes that share one in one line.

    What an earlier box's note ended with already is not said again.

    >>> for_the_maker(["a box 1: feet: welded", "a box 1: no drain: low", "b box 1: feet: welded"])
    ('a box 1: no drain: low', 'a box 1, b box 1: feet: welded')
    >>> for_the_maker(["a box 1: 42 kg; by local rules", "b box 1: 79 kg; by local rules"])
    ('a box 1: 42 kg; by local rules', 'b box 1: 79 kg')
    """
    shared: dict[str, list[str]] = {}
    for note in dict.fromkeys(notes):
        box, words = _parted(note)
        shared.setdefault(words, []).append(box)
    kinds = list(dict.fromkeys(_kind(words) for words in shared))
    ordered = sorted(shared, key=lambda words: (_rank(words), kinds.index(_kind(words))))
    said: set[tuple[str, str]] = set()
    return tuple(_told(shared[words], words, said) for words in ordered)


def _parted(note: str) -> tuple[str, str]:
    """The box a note begins with, if it does, and its words."""
    found = OF_BOX.fullmatch(note)
    return (found[1], found[2]) if found else ("", note)


def _rank(words: str) -> int:
    """0 for what no shop can make, 1 for what is short, 2 for the rest."""
    ranks = (number for number, phrases in enumerate((UNMADE, SHORT)) if any(one in words for one in phrases))
    return next(ranks, 2)


def _is_general(clause: str) -> bool:
    """Whether a clause says the same of any box: a caution, or a remedy without a figure."""
    if clause.startswith(REMEDY):
        return not re.search(r"\d", clause)
    return not FIGURES.search(clause)


def _kind(words: str) -> str:
    """How notes begin that tell of the same: their first words, figures apart."""
    return " ".join(re.sub(r"[\d.]+", "", words).split()[:2])


def _told(boxes: Sequence[str], words: str, said: set[tuple[str, str]]) -> str:
    """One note; what it ends with is left out where a note of its kind has said it, figures apart."""
    if not any(boxes):
        return words
    first, *others = words.split("; ")
    kind = _kind(words)
    while others and (kind, others[-1]) in said and _is_general(others[-1]):
        others.pop()
    said.update((kind, one) for one in words.split("; ")[1:])
    return f"{', '.join(boxes)}: {'; '.join((first, *others))}"
