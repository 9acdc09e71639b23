"""What is wrong with an input, said so that the reader knows what to do next."""

from collections.abc import Iterable
from dataclasses import dataclass

from boxfit.files.shown import plain

Parts = tuple[str | int, ...]
"""The way to a value: keys, and places in lists counted from 0."""


@dataclass(frozen=True)
class Problem:
    """One thing wrong: the file, the key in it, the rule, what was found and what to do.

    Entries of a list are counted from 1, as a person counts. `key` is empty where the whole file is
    meant, `got` is None where there is nothing to show.

    >>> print(Problem("front.toml", "survey.floor", "must be below top 640", "700", "lower the floor"))
    front.toml: survey.floor: must be below top 640 (got 700)
      try: lower the floor
    """

    file: str
    key: str
    rule: str
    got: str | None
    remedy: str

    def __str__(self) -> str:
        place = f"{self.file}: {self.key}" if self.key else self.file
        found = "" if self.got is None else f" (got {self.got})"
        return f"{place}: {self.rule}{found}\n  try: {self.remedy}"


class InputError(Exception):
    """The input is wrong: every problem found, by file, and in a file in the order found."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(sorted(problems, key=lambda problem: problem.file))
        super().__init__("\n".join(str(problem) for problem in self.problems))


def key_of(parts: Parts) -> str:
    """The key as a person reads it; entries of a list count from 1.

    >>> key_of(("fitted", 0, "at", 2))
    'fitted[1].at[3]'
    """
    texts = [f"[{part + 1}]" if isinstance(part, int) else f".{plain(part)}" for part in parts]
    return "".join(texts).removeprefix(".")
