"""How far an item is used: a load against what it bears, worst first."""

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class Use:
    """One check of one item: a `load` against its `resistance`, in `unit`, under what pull, by which rule.

    `remedy` says what to change where it does not pass; `beyond` says why the figure leaves the formula's
    range and on which side that is, empty within it.
    """

    item: str
    check: str
    pull: str
    load: float
    resistance: float
    unit: str
    rule: str
    remedy: str = ""
    beyond: str = ""

    @property
    def utilisation(self) -> float:
        """Load over resistance [-]; endless where nothing bears it.

        >>> Use("foot 1", "bolt", "front", 5.0, 10.0, "N", "by hand").utilisation
        0.5
        """
        if self.resistance > 0.0:
            return self.load / self.resistance
        return float("inf") if self.load > 0.0 else 0.0

    @property
    def passes(self) -> bool:
        """Whether it bears the load."""
        return self.utilisation <= 1.0


def worst_first(uses: Iterable[Use]) -> tuple[Use, ...]:
    """Every check, the most used first, in a fixed order where two are alike."""
    return tuple(sorted(uses, key=lambda use: (-use.utilisation, use.item, use.check, use.pull)))


def worst_of_each(uses: Iterable[Use]) -> tuple[Use, ...]:
    """Of each check of each item only the pull that uses it most, worst first."""
    kept: dict[tuple[str, str], Use] = {}
    for use in worst_first(uses):
        kept.setdefault((use.item, use.check), use)
    return tuple(kept.values())
