"""All figures of a pack's electrics in one place, for files, lists, drawings and the summary."""

from collections.abc import Sequence
from dataclasses import dataclass

from boxfit.box.built import BuiltBox
from boxfit.box.wiring.route import Route
from boxfit.box.wiring.wiring import LinkCable, Wiring, wired
from boxfit.car import Car
from boxfit.electrics.cable_sums import CableSums, cable_sums
from boxfit.electrics.load import Load, loads
from boxfit.electrics.pack import (
    Amperes,
    Insulation,
    Split,
    Volts,
    WindowUse,
    amperes,
    box_energies,
    insulation,
    split_of,
    volts,
    window_uses,
)
from boxfit.electrics.strings import Pack
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.standards.conductors import CONDUCTORS, Conductor

TABLE_ENDS = 1000.0
"""Creepage is tabled up to this [V]."""


@dataclass(frozen=True)
class BoxElectrics:
    """One box: modules, energy [kWh], and whether it has the service disconnect."""

    name: str
    modules: int
    energy: float
    has_disconnect: bool


@dataclass(frozen=True)
class Electrics:
    """Everything. `insulation` is None above the end of the table, `amperes` where the module has none.

    `touching` [V] lie between like terminals of two touching modules at most, `touching_live` between any
    live parts of them.
    """

    car: Car
    module: Module
    pack: Pack
    wiring: Wiring
    volts: Volts
    windows: tuple[WindowUse, ...]
    amperes: Amperes | None
    loads: tuple[Load, ...]
    split: Split
    insulation: Insulation | None
    boxes: tuple[BoxElectrics, ...]
    touching: float
    touching_live: float

    @property
    def conductor(self) -> Conductor:
        """The conductor of the main cables."""
        return next(one for one in CONDUCTORS if one.section == self.wiring.cable.section)

    def sums(self, cable: LinkCable, route: Route) -> CableSums:
        """Of one link cable at its current all the time: the drive's where told, its share of the pack's."""
        return cable_sums(self.conductor, route.length, self.carried(cable))

    def carried(self, cable: LinkCable) -> float | None:
        """Amperes in a cable all the time [A]: what the drive draws, shared as the strings share it."""
        most, share = cable.conductor.amperes, next(iter(self.loads), None)
        return most if most is None or share is None else most * share.share


def electrics_of(car: Car, module: Module, layout: Layout, built: Sequence[BuiltBox]) -> Electrics:
    """All figures of a layout of at least one box, all boxes built."""
    pack = Pack(layout.series, layout.parallel)
    string, given = volts(module, pack.series), amperes(module, pack)
    wiring = wired(car, module, layout, built)
    counts = [len(one.box.modules) for one in built]
    has = [any(each.kind == "service disconnect" for each in one.parts.fittings.bought) for one in built]
    boxes = tuple(
        BoxElectrics(one.parts.name, count, energy, there)
        for one, count, energy, there in zip(built, counts, box_energies(module, counts), has, strict=True)
    )
    step = wiring.pack.step
    return Electrics(
        car=car,
        module=module,
        pack=pack,
        wiring=wiring,
        volts=string,
        windows=window_uses(car, string),
        amperes=given,
        loads=loads(car.drive, given),
        split=split_of(module, pack.series),
        insulation=insulation(string.full) if string.full <= TABLE_ENDS else None,
        boxes=boxes,
        touching=step * module.voltage.full,
        touching_live=(step + 1) * module.voltage.full if wiring.pack.steepest else 0.0,
    )
