"""Rules that hold between tables, or between the entries of a list.

They look at the file as it stands, so that a slip in one table never hides what is wrong between others.
"""

from collections.abc import Iterator
from itertools import pairwise

from boxfit.files.across_weighed import across_weighed
from boxfit.files.figures import Raw, figure, table
from boxfit.files.near import among
from boxfit.files.problems import Problem
from boxfit.files.shown import shown

_SAME_PLACE = 0.01


def across_car(raw: Raw, file: str) -> Iterator[Problem]:
    """What does not agree between the tables of a car file."""
    yield from repeated_names(raw, "carried", file)
    yield from _nobody_of_that_name(raw, file)
    yield from across_weighed(raw, file)


def across_bay(raw: Raw, file: str) -> Iterator[Problem]:
    """What does not agree between the tables of a bay file."""
    yield from repeated_names(raw, "keepout", file)
    yield from repeated_names(raw, "mount", file)
    yield from _out_of_order(raw, file)


def repeated_names(raw: Raw, array: str, file: str) -> Iterator[Problem]:
    """Entries of the list that bear the name of an earlier one; capitals and signs do not count."""
    first: dict[str, int] = {}
    for place, name in _names(raw, array):
        if (bare := bare_name(name)) in first:
            rule = f"must differ from the name of {array}[{first[bare] + 1}]"
            yield Problem(
                file, f"{array}[{place + 1}].name", rule, shown(name), "give each a name of its own"
            )
        first.setdefault(bare, place)


def bare_name(name: str) -> str:
    """The name without what makes no difference to a reader or in a file's name.

    >>> bare_name(" Front-bay")
    'front bay'
    """
    return " ".join("".join(sign if sign.isalnum() else " " for sign in name).split()).casefold()


def _names(raw: Raw, array: str) -> Iterator[tuple[int, str]]:
    entries = raw.get(array)
    for place, entry in enumerate(entries if isinstance(entries, list) else []):
        name = entry.get("name") if isinstance(entry, dict) else None
        if isinstance(name, str):
            yield place, name


def _nobody_of_that_name(raw: Raw, file: str) -> Iterator[Problem]:
    """Without any [[carried]] nothing is asked of them, so nothing is said either."""
    aboard = table(raw, "target").get("with")
    if "carried" not in raw or not isinstance(aboard, list):
        return
    known = [name for _, name in _names(raw, "carried")]
    for place, word in enumerate(aboard):
        if isinstance(word, str) and word not in known:
            key = f"target.with[{place + 1}]"
            yield Problem(file, key, "names nothing in [[carried]]", shown(word), among(word, known))


def _out_of_order(raw: Raw, file: str) -> Iterator[Problem]:
    """The first section that does not go on the way from the first to the last."""
    sections = table(raw, "survey").get("section")
    tables = (
        [each if isinstance(each, dict) else {} for each in sections] if isinstance(sections, list) else []
    )
    places = [figure(each.get("at")) for each in tables]
    known = [place for place in places if place is not None]
    if len(known) < len(places):
        return
    way = 1.0 if known[:1] < known[-1:] else -1.0
    for count, (before, at) in enumerate(pairwise(known), start=2):
        if (at - before) * way < _SAME_PLACE:
            order = "rising" if way > 0.0 else "falling"
            rule = f"must lie beyond section {count - 1} at {shown(before)}: sections stand in {order} order"
            remedy = "put the sections in order of at, each at a place of its own"
            yield Problem(file, f"survey.section[{count}].at", rule, shown(at), remedy)
            return
