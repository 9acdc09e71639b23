"""What battery modules usually are, to see slips in their files by. Every figure: common practice, no source.

The ranges are wide: a figure outside of one is most often in the wrong unit or has a slipped point, and may
still be right.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Usual:
    """A range that figures usually lie in, `unit` for the reader."""

    low: float
    high: float
    unit: str

    def holds(self, figure: float) -> bool:
        """True where the figure is within, both ends included."""
        return self.low <= figure <= self.high

    def __str__(self) -> str:
        return f"{self.low:g} to {self.high:g}{f' {self.unit}' if self.unit else ''}"


DENSITY = Usual(1.0, 2.8, "kg per litre")
SPECIFIC_ENERGY = Usual(60.0, 280.0, "Wh per kg")
CONTINUOUS = Usual(0.3, 12.0, "A per Ah")
"""What a module gives all the time, for each Ah of capacity."""
ENERGY_AGREES = 0.05
"""How far [-] energy and capacity times nominal volts usually part at most."""
TERMINAL_ROOM = 10.0
"""Least room [mm] usually kept at terminals, for their covers and leads."""
MOST_SPACING = 20.0
"""Most that modules are usually set apart [mm]."""


@dataclass(frozen=True)
class Cell:
    """Volts [V] that one cell of a family usually has empty, nominal and full."""

    family: str
    empty: Usual
    nominal: Usual
    full: Usual


CELLS = (
    Cell("nickel or cobalt oxide", Usual(2.4, 3.4, "V"), Usual(3.5, 3.9, "V"), Usual(4.0, 4.45, "V")),
    Cell("iron phosphate", Usual(2.0, 3.0, "V"), Usual(3.1, 3.4, "V"), Usual(3.4, 3.7, "V")),
    Cell("titanate", Usual(1.4, 2.1, "V"), Usual(2.2, 2.5, "V"), Usual(2.55, 2.9, "V")),
)
"""Families of lithium cells, the commonest first."""
EMPTY = Usual(
    min(cell.empty.low / cell.nominal.high for cell in CELLS),
    max(cell.empty.high / cell.nominal.low for cell in CELLS),
    "of nominal",
)
"""Volts of an empty lithium cell of any family, as a part [-] of its nominal volts."""
FULL = Usual(
    min(cell.full.low / cell.nominal.high for cell in CELLS),
    max(cell.full.high / cell.nominal.low for cell in CELLS),
    "of nominal",
)
"""The same of a full one."""


def cell_counts(empty: float, nominal: float, full: float) -> tuple[int, ...]:
    """How many lithium cells in series usually have these volts [V], rising; empty where no family suits.

    >>> cell_counts(33.0, 44.0, 50.4), cell_counts(33.0, 44.0, 60.0), cell_counts(3.0, 4.4, 5.0)
    ((12, 14, 18, 19), (), ())
    """
    found = set()
    for cell in CELLS:
        for count in range(round(nominal / cell.nominal.high), round(nominal / cell.nominal.low) + 1):
            pairs = ((cell.empty, empty), (cell.nominal, nominal), (cell.full, full))
            if count > 0 and all(usual.holds(round(volts / count, 6)) for usual, volts in pairs):
                found.add(count)
    return tuple(sorted(found))
