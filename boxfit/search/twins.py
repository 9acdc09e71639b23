"""Two modules that look at each other and keep one room between them, where the module's file allows it.

They are laid as one footprint that counts twice, then taken apart.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from boxfit.module import Module, Stance
from boxfit.search.blocks import BlockTable, Footprint, Placement
from boxfit.search.grid import lay_on_grid
from boxfit.search.raster import units
from boxfit.search.rectangle import GRID_EFFORT, Filling
from boxfit.search.skyline import Answer
from boxfit.search.tier import PlanModel


@dataclass(frozen=True)
class Twin:
    """A pair's footprint [units], and kind and offset [units] of either module's own reserve in it."""

    footprint: Footprint
    one: tuple[int, int, int]
    other: tuple[int, int, int]

    def apart(self, x: int, y: int) -> tuple[Placement, Placement]:
        """Both modules of the pair at x, y [units]."""
        (kind, dx, dy), (partner, to_x, to_y) = self.one, self.other
        return (kind, x + dx, y + dy), (partner, x + to_x, y + to_y)


@dataclass(frozen=True)
class Laying:
    """The footprints [units] a tier is laid with: single modules, then pairs."""

    singles: tuple[Footprint, ...]
    pairs: tuple[Twin, ...]

    @property
    def footprints(self) -> tuple[Footprint, ...]:
        """Singles first."""
        return (*self.singles, *(pair.footprint for pair in self.pairs))

    @property
    def weights(self) -> tuple[int, ...]:
        """Modules in each footprint."""
        return (1,) * len(self.singles) + (2,) * len(self.pairs)

    def taken_apart(self, placements: Iterable[Placement]) -> Filling:
        """The modules one by one; nothing is said of how many more there could be."""
        found = sorted(one for place in placements for one in self._modules(place))
        return Filling(len(found), len(found), tuple(found))

    def _modules(self, place: Placement) -> tuple[Placement, ...]:
        kind, x, y = place
        return (place,) if kind < len(self.singles) else self.pairs[kind - len(self.singles)].apart(x, y)


def laying(model: PlanModel, module: Module) -> Laying:
    """How a tier is laid: in pairs too, where modules may share a room."""
    return Laying(model.reserves, _pairs(model, module.spacing) if model.partners else ())


def _pairs(model: PlanModel, spacing: float) -> tuple[Twin, ...]:
    """Each module with its partner turned towards it."""
    return tuple(
        _twin(model, kind, axis, spacing)
        for kind, one in enumerate(model.stances[: len(model.reserves)])
        for axis in (0, 1)
        if _look_at_each_other(one, model.stances[kind + len(model.reserves)], axis)
    )


def _look_at_each_other(one: Stance, other: Stance, axis: int) -> bool:
    """True where the room of one looks forward along the axis, the other's back, and nothing else differs."""
    across = 1 - axis
    return (
        one.room_high[axis] > 0.0 == one.room_low[axis]
        and other.room_low[axis] == one.room_high[axis]
        and (other.room_low[across], other.room_high[across]) == (one.room_low[across], one.room_high[across])
    )


def _twin(model: PlanModel, kind: int, axis: int, spacing: float) -> Twin:
    partner = kind + len(model.reserves)
    one = model.stances[kind]
    between = max(one.room_high[axis], spacing)
    # What the partner's reserve keeps before its body lies in the room of the first.
    apart = units(model.lead[kind][axis] + one.size[axis] + between - model.lead[partner][axis])
    offset = (apart, 0) if axis == 0 else (0, apart)
    footprints = model.reserve(kind), model.reserve(partner)
    sides = [max(first, after + far) for first, after, far in zip(*footprints, offset, strict=True)]
    return Twin((sides[0], sides[1]), (kind, 0, 0), (partner, *offset))


@lru_cache(maxsize=20_000)
def fill(width: int, depth: int, laid: Laying) -> Filling:
    """As many modules as blocks and a short exact search lay in width x depth [units], pairs among them."""
    if width <= 0 or depth <= 0:
        return Filling(0, 0, ())
    footprints, weights = laid.footprints, laid.weights
    placements = BlockTable(width, depth, footprints, weights).place(width, depth)
    answer = Answer.YES
    while answer is Answer.YES:
        wanted = sum(weights[kind] for kind, _, _ in placements) + 1
        answer, better = lay_on_grid(width, depth, footprints, wanted, GRID_EFFORT, weights)
        placements = better if answer is Answer.YES else placements
    return laid.taken_apart(placements)
