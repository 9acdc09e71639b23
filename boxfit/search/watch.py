"""How long a search may go on, who hears how it goes, and whether somebody stopped it."""

from collections.abc import Callable
from dataclasses import dataclass, field
from math import inf
from time import monotonic

Hear = Callable[[int, int | None], None]
"""Takes the most modules found so far and the bound, None while there is none."""


def _nobody(_found: int, _bound: int | None) -> None:
    """Nobody listens."""


@dataclass
class Watch:
    """A search asks now and then whether it `is_over`, and tells what it has.

    Over after `seconds` [s] by its `clock`, endless by default; time then decides what is found and how well
    it is bounded. `stop` ends it at once, from a signal handler too.
    """

    seconds: float = inf
    hear: Hear = _nobody
    clock: Callable[[], float] = monotonic
    _began: float = field(init=False)
    _stopped: bool = field(default=False, init=False)

    def __post_init__(self) -> None:
        self._began = self.clock()

    @property
    def is_over(self) -> bool:
        """True once the time is up or somebody stopped the search; stays true."""
        if not self._stopped and self.clock() - self._began > self.seconds:
            self._stopped = True
        return self._stopped

    def stop(self) -> None:
        """Ends the search as soon as it asks."""
        self._stopped = True

    def tell(self, found: int, bound: int | None = None) -> None:
        """Lets whoever listens know."""
        self.hear(found, bound)
