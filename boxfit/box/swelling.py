"""Room for modules that swell, and whether a closed box gets rid of their heat: modest sums. [mm, W]"""

from dataclasses import dataclass

from boxfit.box.built import BuiltBox
from boxfit.box.fit import ALONG, inside_fit
from boxfit.module import AXES, Module
from boxfit.standards.heat import ASK_ABOVE, COOL_ABOVE, SWELLING, given_off, heated, resistance


@dataclass(frozen=True)
class Swelling:
    """The row of a box with least room for growth: its modules, what they grow by, what is free [mm]."""

    modules: int
    grows: float
    free: float

    @property
    def lacks(self) -> float:
        """What the modules' own end plates must keep in [mm]."""
        return max(self.grows - self.free, 0.0)


@dataclass(frozen=True)
class Heat:
    """A closed box: resistance of its liner [m2 K/W], what it gives off and what its modules make [W].

    `rate` is continuous current over capacity [1/h]; None, as what they make, where no current is told.
    """

    liner: float
    off: float
    made: float | None
    rate: float | None

    @property
    def asks(self) -> bool:
        """Whether the module's maker is to be asked about cooling."""
        return self.rate is not None and self.rate > ASK_ABOVE

    @property
    def needs(self) -> bool:
        """Whether cooling is needed, as common practice has it."""
        return self.rate is not None and self.rate > COOL_ABOVE


def swelling_of(built: BuiltBox, module: Module) -> Swelling | None:
    """Cells are taken to be stacked along a module's length, the usual way for long ones; its maker knows.

    Free is the play of the row and what stands between its modules. None where they stand on end.
    """
    found = []
    for row in inside_fit(built, module):
        if row.direction == "up" or row.past_ledge:
            continue
        axis = ALONG.index(row.direction)
        stacked = [one for one in row.modules if one.stance.length_along == AXES[axis]]
        if stacked:
            bodies = sum(one.stance.size[axis] for one in row.modules)
            found.append(
                Swelling(len(row.modules), SWELLING * module.length * len(stacked), row.clear - bodies)
            )
    return max(found, key=lambda one: (one.lacks, -one.free), default=None)


def heat_of(built: BuiltBox, module: Module) -> Heat:
    """By the outside of the box's walls, floor and lid."""
    box, liner = built.box, built.bay.box.liner if built.parts.liner else 0.0
    x, y, z = (high - low for low, high in zip(box.low, box.high, strict=True))
    area = 2.0 * (x * y + y * z + z * x) / 1e6
    off = given_off(area, liner)
    if module.current is None:
        return Heat(resistance(liner), off, None, None)
    amperes = module.current.continuous
    made = len(box.modules) * heated(module.voltage.nominal, amperes, module.capacity)
    return Heat(resistance(liner), off, made, amperes / module.capacity)
