"""What the drive draws against what module, strings and main cables may give. [A]"""

from collections.abc import Iterator
from dataclasses import dataclass

from boxfit.electrics.pack import Amperes
from boxfit.module import Current


@dataclass(frozen=True)
class Load:
    """One current drawn against what may be given; `kind` is "continuous" or "peak"."""

    kind: str
    drawn: float
    given: float

    @property
    def share(self) -> float:
        """How much of it is used [-]."""
        return self.drawn / self.given


def loads(drive: Current | None, pack: Amperes | None) -> tuple[Load, ...]:
    """All the time and for a moment; none where drive or module tell no current.

    >>> loads(Current(250.0, 600.0), Amperes(300.0, 750.0, 100.0, 250.0))[1].share
    0.8
    """
    if drive is None or pack is None:
        return ()
    return (
        Load("continuous", drive.continuous, pack.continuous),
        Load("peak", drive.peak, pack.peak),
    )


def overdrawn(found: tuple[Load, ...], module_file: str, strings: int) -> Iterator[str]:
    """What the drive draws beyond what the strings may give, with where to change it.

    >>> next(overdrawn((Load("peak", 900.0, 750.0),), "heron-44.toml", 3))[:66]
    'car.toml: electrics.current.peak: the drive draws 900 A, 3 strings'
    """
    for one in found:
        if one.drawn > one.given + 1e-9:
            count = "1 string" if strings == 1 else f"{strings} strings"
            yield (
                f"car.toml: electrics.current.{one.kind}: the drive draws {one.drawn:g} A, {count} of "
                f"{module_file} may give {one.given:g} A (current.{one.kind}): limit the drive to "
                f"{one.given:g} A, or take a module or a count of strings that gives more"
            )
