"""The known word nearest to a mistyped one."""

from collections.abc import Iterable
from difflib import get_close_matches

from boxfit.files.shown import plain

_LONGEST_WORD = 60


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word most like `word`, None where none is much like it. Capitals do not count.

    >>> nearest("Lenght", ["height", "length", "width"])
    'length'
    """
    by_small = {each.casefold(): each for each in known}
    matches = get_close_matches(word[:_LONGEST_WORD].casefold(), by_small, n=1, cutoff=0.6)
    return by_small[matches[0]] if matches else None


def did_you_mean(word: object, known: Iterable[str]) -> str:
    """A question with the nearest known word, empty where none is near.

    >>> did_you_mean("foldde", ["folded", "welded"])
    'did you mean "folded"?'
    """
    match = nearest(word, known) if isinstance(word, str) else None
    return "" if match is None else f'did you mean "{plain(match)}"?'


def among(word: object, known: Iterable[str]) -> str:
    """A remedy line where the rule does not list the known words: the nearest one and all of them.

    >>> among("drivr", ["driver", "luggage"])
    'did you mean "driver"? Known here: driver, luggage'
    """
    words = tuple(known)
    listed = f"Known here: {', '.join(plain(each) for each in words) or 'none'}"
    return f"{did_you_mean(word, words)} {listed}".lstrip()
