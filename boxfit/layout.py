"""A finished layout: which modules stand where, which way round, in which box, and how good it is."""

from dataclasses import dataclass

from boxfit.bay import Vector
from boxfit.module import Stance


@dataclass(frozen=True)
class PlacedModule:
    """A module body (room not included) whose lowest corner is at `low` [mm]."""

    stance: Stance
    low: Vector

    @property
    def high(self) -> Vector:
        """The corner opposite `low` [mm]."""
        (x, y, z), (length, width, height) = self.low, self.stance.size
        return (x + length, y + width, z + height)


@dataclass(frozen=True)
class Tier:
    """Modules on one level; `stands_on` [mm] is the top of the liner or of the shelf beneath them.

    `height` [mm] is from there to the top of the tallest module's room.
    """

    stands_on: float
    height: float
    modules: tuple[PlacedModule, ...]


@dataclass(frozen=True)
class PlacedBox:
    """A box: `low` and `high` [mm] are the outside of walls, floor and lid; the flange is not included."""

    low: Vector
    high: Vector
    tiers: tuple[Tier, ...]
    corners: int = 4

    @property
    def modules(self) -> tuple[PlacedModule, ...]:
        """All modules of the box, lowest tier first."""
        return tuple(module for tier in self.tiers for module in tier.modules)


@dataclass(frozen=True)
class BayLayout:
    """The boxes of one bay; none where the bay stays empty."""

    name: str
    boxes: tuple[PlacedBox, ...]


@dataclass(frozen=True)
class Weights:
    """The car as the target judges it: axle loads and gross [kg], shares [-], centre of mass [mm].

    Axle figures are None where the car was not weighed; `modules` and `boxes` [kg] are always known.
    The height in `centre_of_mass` is None where the height of the stripped car's mass is not known.
    """

    modules: float
    boxes: float
    front_axle: float | None = None
    rear_axle: float | None = None
    gross: float | None = None
    front_share: float | None = None
    left_share: float | None = None
    centre_of_mass: tuple[float, float, float | None] | None = None


@dataclass(frozen=True)
class Layout:
    """The answer of the search. `notes` say what held it back or where the target was missed."""

    car: str
    module: str
    count: int
    series: int
    parallel: int
    energy: float
    bound: int
    proven: bool
    target_met: bool
    bays: tuple[BayLayout, ...]
    weights: Weights
    notes: tuple[str, ...] = ()
