"""All that the papers of one car are made from, gathered once."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from boxfit.bay import Vector
from boxfit.box.retention.whole import Retention
from boxfit.box.whole import BuiltBox
from boxfit.box.wiring.figures import Electrics
from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.report.as_built import weighed_as_built
from boxfit.weight.corners import State, states
from boxfit.weight.pack import Pack

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

WORKING_AID = "Working aid, to be checked by a licensed engineer under local codes"


@dataclass(frozen=True)
class Case:
    """A car with a layout of at least one box, its boxes as built and what the sums found for them.

    `pack` is as weighed from the solids, `searched` as the search weighed it; `shapes` are the solids of all
    parts by name.
    """

    car: Car
    module: Module
    layout: Layout
    built: tuple[BuiltBox, ...]
    pack: Pack
    searched: Pack
    retention: Retention
    electrics: Electrics
    shapes: "Mapping[str, TopoDS_Shape]"

    @property
    def title(self) -> str:
        """Car and module in a line."""
        return f"{self.car.name} with {self.module.name}"

    @property
    def states(self) -> tuple[State, ...]:
        """The loads of the car state by state; none where it was not weighed."""
        if self.car.weighed is None:
            return ()
        return states(self.car, self.car.weighed, self.pack.masses)

    @property
    def judged(self) -> Layout:
        """The layout with the weights as built, in the state that the target judges."""
        return weighed_as_built(self.car, self.layout, self.layout.count * self.module.mass, self.pack)

    @property
    def highest_volts(self) -> float:
        """A full string [V]."""
        return self.layout.series * self.module.voltage.full


def xyz(at: Vector) -> tuple[str, str, str]:
    """A place in whole millimetres, an axis in each column.

    >>> xyz((1.4, -0.2, 300.0))
    ('1', '0', '300')
    """
    x, y, z = (f"{round(along) + 0}" for along in at)
    return (x, y, z)


def missing(case: Case) -> tuple[str, ...]:
    """What the files do not tell, what of the papers stays open for it, and the key that gives it."""
    car, found = case.car, list[str]()
    if car.weighed is None:
        found.append(
            "the stripped car was not weighed, so no load, margin or share is known: "
            "[weighed] front_left, front_right, rear_left, rear_right in car.toml"
        )
    elif case.states[0].centre[2] is None:
        found.append(
            "the height of the centre of mass is not known: weighed.height_of_mass, "
            "or [weighed.raised] from a weighing with one axle raised, in car.toml"
        )
    limits = (car.limits.front_axle, car.limits.rear_axle, car.limits.gross)
    silent = [
        key for key, limit in zip(("front_axle", "rear_axle", "gross"), limits, strict=True) if limit is None
    ]
    if silent:
        found.append(f"no limit is told of the maker's plate: [limits] {', '.join(silent)} in car.toml")
    if not car.windows:
        found.append(
            "the voltages that inverter and charger take are not told: "
            "[electrics] inverter_voltage, charger_voltage in car.toml"
        )
    if car.windows and car.drive is None:
        found.append(
            "what the drive draws is not told: current = { continuous, peak } under [electrics] in car.toml"
        )
    if case.module.current is None:
        found.append(
            f"the module's amperes are not told: current = {{ continuous, peak }} in {case.module.stem}.toml"
        )
    bare = [bay.name for bay in car.bays if not bay.mounts and any(one.bay is bay for one in case.built)]
    if bare:
        found.append(
            f"no place of the body is told that carries the boxes of {', '.join(bare)}: [[mount]] in the "
            "bay's file"
        )
    if not car.carried:
        found.append("nobody and nothing carried is told: [[carried]] in car.toml")
    return tuple(found)
