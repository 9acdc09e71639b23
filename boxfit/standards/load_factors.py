"""How hard a crash or a bump pulls at a battery box, by rule set, each with its source and status. [g]"""

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

GRAVITY = 9.81
"""Standard acceleration of free fall, rounded [m/s2]."""

Status = Literal["read", "read second hand", "from memory", "the user's own"]
Pull = Literal["front", "rear", "side", "up", "down"]
"""The way the load acts on the box: front pulls it forwards, as when the car is stopped from ahead."""
PULLS: tuple[Pull, ...] = ("front", "rear", "side", "up", "down")


@dataclass(frozen=True)
class LoadFactors:
    """Times its own weight that a box is pulled each way [g]; 0 where the rule set does not speak of it."""

    name: str
    front: float
    rear: float
    side: float
    up: float
    down: float
    source: str
    status: Status
    remark: str = ""

    def factor(self, pull: Pull) -> float:
        """The factor one way [g]."""
        return {
            "front": self.front,
            "rear": self.rear,
            "side": self.side,
            "up": self.up,
            "down": self.down,
        }[pull]


def inertia_load(mass: float, factor: float) -> float:
    """The force [N] on a mass [kg] at so many times its own weight [g]: F = m n g.

    >>> round(inertia_load(100.0, 20.0))
    19620
    """
    return mass * factor * GRAVITY


@dataclass(frozen=True)
class Corridor:
    """A shock corridor: the pulse [g] over time [ms] lies between `least` and `most`, points (ms, g)."""

    name: str
    least: tuple[tuple[float, float], ...]
    most: tuple[tuple[float, float], ...]

    @property
    def peak(self) -> float:
        """The highest g that a pulse inside the corridor may reach."""
        return max(g for _, g in self.most)

    @property
    def plateau(self) -> float:
        """The g that every pulse inside the corridor reaches."""
        return max(g for _, g in self.least)


def level(points: tuple[tuple[float, float], ...], time: float) -> float:
    """The g of a curve at a time [ms], straight between its points; 0 before and after them.

    >>> level(((20.0, 0.0), (50.0, 20.0)), 35.0)
    10.0
    """
    for (start, low), (end, high) in pairwise(points):
        if start <= time <= end:
            return low + (high - low) * (time - start) / (end - start)
    return 0.0


def _corridor(name: str, plateau: float, ends: float, peak: float) -> Corridor:
    """Points A to D below and E to H above; the times are those of every category."""
    least = ((20.0, 0.0), (50.0, plateau), (65.0, plateau), (100.0, 0.0))
    most = ((0.0, ends), (50.0, peak), (80.0, peak), (120.0, ends))
    return Corridor(name, least, most)


R100_CORRIDORS = {
    ("M1, N1", "along"): _corridor("M1, N1 along", 20.0, 10.0, 28.0),
    ("M1, N1", "across"): _corridor("M1, N1 across", 8.0, 4.5, 15.0),
    ("M2, N2", "along"): _corridor("M2, N2 along", 10.0, 5.0, 17.0),
    ("M2, N2", "across"): _corridor("M2, N2 across", 5.0, 2.5, 10.0),
    ("M3, N3", "along"): _corridor("M3, N3 along", 6.6, 4.0, 12.0),
    ("M3, N3", "across"): _corridor("M3, N3 across", 5.0, 2.5, 10.0),
}
"""UNECE R100 mechanical shock, by vehicle category; from memory. The peak of 28 g and its end at 80 ms for
cars were read on a test house's page about the regulation's second revision."""

_R100 = "UNECE R100 series 02 mechanical shock: the upper curve's peak along and across"
_R100_REMARK = "the regulation asks no vertical shock; up and down are those of the twenty-g rules"


def _r100(name: str, category: str) -> LoadFactors:
    along, across = (R100_CORRIDORS[(category, way)].peak for way in ("along", "across"))
    return LoadFactors(name, along, along, across, 10.0, 10.0, _R100, "from memory", _R100_REMARK)


RULE_SETS = {
    rules.name: rules
    for rules in (
        LoadFactors(
            "twenty-g",
            20.0,
            10.0,
            15.0,
            10.0,
            10.0,
            "NCOP14 (Australia): 20 times the battery's weight overall, read in a workshop's summary",
            "read second hand",
            "only the 20 g was read; 15 g sideways, 10 g rearwards and vertically are from memory",
        ),
        _r100("r100-m1-n1", "M1, N1"),
        _r100("r100-m2-n2", "M2, N2"),
        _r100("r100-m3-n3", "M3, N3"),
        LoadFactors(
            "student-racing",
            40.0,
            40.0,
            40.0,
            40.0,
            40.0,
            "student racing rules F.10.5.6: a quarter of the container at 40 g at each attachment",
            "read",
            "for a box on four attachments; every fastener in pure shear on its minor diameter",
        ),
    )
}
"""Which rule holds where a car is approved is the authority's word, not ours."""
USUAL_RULE_SET = "twenty-g"
