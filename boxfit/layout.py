"""A finished layout: which modules stand where, which way round, in which box, and how good it is."""

from dataclasses import dataclass

from boxfit.bay import Vector
from boxfit.box_shape import corner_count, rectangle
from boxfit.car import PointMass
from boxfit.module import Stance
from boxfit.surface import Outline


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

    `height` [mm] is from there to the top of the tallest module's room. `outline` [mm] is the outside of the
    walls round this tier, counter-clockwise with sides square to the car; empty where it is the box's own
    rectangle.
    """

    stands_on: float
    height: float
    modules: tuple[PlacedModule, ...]
    outline: Outline = ()


@dataclass(frozen=True)
class PlacedBox:
    """A box: `low` and `high` [mm] are the outside of walls, floor and lid; the flange is not included.

    A stepped box has an outline of its own round every tier, none reaching past the one above it: what is
    wider above stands out over a step in the floor, and one flat lid closes the top.
    """

    low: Vector
    high: Vector
    tiers: tuple[Tier, ...]

    @property
    def modules(self) -> tuple[PlacedModule, ...]:
        """All modules of the box, lowest tier first."""
        return tuple(module for tier in self.tiers for module in tier.modules)

    @property
    def is_stepped(self) -> bool:
        """True where the box is more than one cuboid."""
        return any(tier.outline for tier in self.tiers)

    @property
    def outlines(self) -> tuple[Outline, ...]:
        """The outside of the walls in plan [mm] round each tier, lowest first."""
        own = rectangle(self.low[:2], self.high[:2])
        return tuple(tier.outline or own for tier in self.tiers)

    @property
    def corners(self) -> int:
        """Corners in plan, those of every outline that differs from the one below it."""
        return corner_count(self.outlines)


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
    """The answer of the search. `notes` say what held it back or where the target was missed.

    `reserve` is what was kept for fittings and link cables, as weighed on boxes made before; it is counted in
    the axle figures of `weights`, and `bound` and `proven` hold with it. Empty where nothing was kept.
    """

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
    alternatives: "tuple[Alternative, ...]" = ()
    reserve: tuple[PointMass, ...] = ()


@dataclass(frozen=True)
class Alternative:
    """Another layout worth a look: `what` it is, and in a line how it differs from the best."""

    what: str
    difference: str
    layout: Layout
