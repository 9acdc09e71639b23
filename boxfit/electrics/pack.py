"""Volts, amperes and energy of the pack, its strings and its boxes, against what module and windows allow."""

from collections.abc import Iterable
from dataclasses import dataclass

from boxfit.car import Car
from boxfit.electrics.strings import Pack
from boxfit.module import Module
from boxfit.standards.insulation import clearance, creepage, is_class_b, isolation_to_reach

IMPULSE = 2500.0
"""Impulse voltage [V] taken for the clearance: overvoltage category II on a 300 V system (from memory, IEC
60664-1). Whoever signs decides."""


@dataclass(frozen=True)
class Volts:
    """Of one string [V], empty, nominal and full."""

    empty: float
    nominal: float
    full: float


@dataclass(frozen=True)
class Amperes:
    """Of the whole pack and of one module [A]; all strings share alike."""

    continuous: float
    peak: float
    module_continuous: float
    module_peak: float


@dataclass(frozen=True)
class Split:
    """A string opened between two of its modules: how many stand on either side, and the volts full [V]."""

    before: int
    after: int
    volts_before: float
    volts_after: float


@dataclass(frozen=True)
class Insulation:
    """What the highest voltage asks for: isolation [ohm] alone and joined to an alternating bus, creepage and
    clearance [mm] basic, pollution degree 3, material group III."""

    class_b: bool
    isolation: float
    isolation_together: float
    creepage: float
    creepage_reinforced: float
    clearance: float


def volts(module: Module, series: int) -> Volts:
    """One string of so many modules [V].

    >>> from boxfit.module import Voltage
    >>> volts(Module("m", "m", 1, 1, 1, 1, 1, 1, Voltage(33, 44, 50.4), ("height",), 0), 3)
    Volts(empty=99, nominal=132, full=151.2)
    """
    one = module.voltage
    return Volts(series * one.empty, series * one.nominal, round(series * one.full, 9))


def amperes(module: Module, pack: Pack) -> Amperes | None:
    """What the pack may give; None where the module's file has no current."""
    if module.current is None:
        return None
    one = module.current
    return Amperes(one.continuous * pack.parallel, one.peak * pack.parallel, one.continuous, one.peak)


def split_of(module: Module, series: int) -> Split:
    """Where a service disconnect halves a string: in its middle, so that either part has the least volts.

    >>> from boxfit.module import Voltage
    >>> split_of(Module("m", "m", 1, 1, 1, 1, 1, 1, Voltage(33, 44, 50.0), ("height",), 0), 3)
    Split(before=2, after=1, volts_before=100.0, volts_after=50.0)
    """
    before = (series + 1) // 2
    return Split(
        before, series - before, before * module.voltage.full, (series - before) * module.voltage.full
    )


def insulation(highest: float) -> Insulation:
    """What a highest direct voltage [V] asks for. Raises ValueError above 1000 V, where the table ends."""
    return Insulation(
        class_b=is_class_b(highest),
        isolation=isolation_to_reach(highest),
        isolation_together=isolation_to_reach(highest, together=True),
        creepage=creepage(highest),
        creepage_reinforced=creepage(highest, reinforced=True),
        clearance=clearance(IMPULSE),
    )


@dataclass(frozen=True)
class WindowUse:
    """A string in a voltage window: what is left [V] below when empty and above when full."""

    name: str
    low: float
    high: float
    left_below: float
    left_above: float


def window_uses(car: Car, string: Volts) -> tuple[WindowUse, ...]:
    """Every window with what is left of it."""
    return tuple(
        WindowUse(one.name, one.low, one.high, string.empty - one.low, one.high - string.full)
        for one in car.windows
    )


def box_energies(module: Module, counts: Iterable[int]) -> tuple[float, ...]:
    """Energy [kWh] in each box by how many modules it holds."""
    return tuple(count * module.energy for count in counts)
