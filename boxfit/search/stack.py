"""Tiers one above the other in one box: heights, levels, and how many modules a plan size holds."""

from dataclasses import dataclass, replace
from functools import cached_property
from itertools import combinations_with_replacement, product

from boxfit.bay import BoxRules
from boxfit.module import Module, stances
from boxfit.search import rectangle, twins
from boxfit.search.blocks import BlockTable
from boxfit.search.raster import UNITS_PER_MILLIMETRE, sums, units_within
from boxfit.search.rectangle import Filling
from boxfit.search.tier import PlanModel, TierKind, plan_model, tier_kinds, wall_gap, wider_model
from boxfit.search.twins import Laying, laying
from boxfit.space.free import BoxLevels

THINNEST_RIM = 1e-5
"""A flange of sheet that the rules give no thickness still keeps its distance [mm]."""
MOST_ORDERS = 64
"""Above this many orders of tiers, tall tiers simply stand below short ones."""


@dataclass(frozen=True)
class PlanSize:
    """Outside of a box's walls in plan [mm]: width along x, depth along y."""

    width: float
    depth: float


@dataclass(frozen=True)
class Stack:
    """Kinds of tier from the floor up, for one module and one way of building."""

    kinds: tuple[TierKind, ...]
    module: Module
    rules: BoxRules

    @cached_property
    def levels(self) -> tuple[float, ...]:
        """What each tier stands on [mm] above the outside of the floor."""
        found = [self.rules.thickness + self.rules.liner]
        for kind in self.kinds[:-1]:
            found.append(found[-1] + kind.height + self.rules.headroom + self.rules.thickness)
        return tuple(found)

    @cached_property
    def height(self) -> float:
        """Outside height [mm] of the box, lid included."""
        return self.levels[-1] + self.kinds[-1].height + self.rules.headroom + self.rules.lid_thickness

    def box_levels(self, bottom: float, lift: float = 0.0) -> BoxLevels:
        """Levels of the box on `bottom` [mm]; with a lift, those it fills wherever in the lift it stands."""
        rim = max(self.rules.rim_below_top + self.rules.thickness, THINNEST_RIM)
        flange = bottom + self.height - rim
        return BoxLevels(bottom + lift, flange + lift, bottom + self.height)

    @cached_property
    def models(self) -> tuple[PlanModel, ...]:
        """How each tier's modules are laid out in plan."""
        return tuple(plan_model(kind, self.module, self._gap(place)) for place, kind in enumerate(self.kinds))

    @cached_property
    def wider_models(self) -> tuple[PlanModel, ...]:
        """What bounds each tier."""
        return tuple(
            wider_model(kind, self.module, self._gap(place, least=True))
            for place, kind in enumerate(self.kinds)
        )

    @property
    def gaps(self) -> tuple[float, ...]:
        """From the liner of the walls to the modules [mm], tier by tier."""
        return tuple(self._gap(place) for place in range(len(self.kinds)))

    @property
    def least_gap(self) -> float:
        """No box of the rules has less anywhere [mm], however it is made."""
        return min(self._gap(place, least=True) for place in range(len(self.kinds)))

    def _gap(self, place: int, least: bool = False) -> float:
        return wall_gap(self.rules, place == 0, least)

    def _tray(self, model: PlanModel, size: PlanSize) -> tuple[int, int]:
        """Room [units] for the model's reserves inside a box of the size."""
        walls = 2 * (self.rules.thickness + self.rules.liner)
        return (
            units_within(size.width - walls - model.loss[0]),
            units_within(size.depth - walls - model.loss[1]),
        )

    def fillings(self, size: PlanSize, exactly: bool) -> tuple[Filling, ...]:
        """Each tier filled, by blocks or by the exact searches; bounds hold for any arrangement."""
        found = []
        for model, wider in zip(self.models, self.wider_models, strict=True):
            filling = self._filled(model, size, exactly)
            if model != wider:
                most = rectangle.bound(*self._tray(wider, size), wider.reserves)
                filling = Filling(filling.count, most, filling.placements)
            found.append(filling)
        return tuple(found)

    def _filled(self, model: PlanModel, size: PlanSize, exactly: bool) -> Filling:
        """One tier filled; with pairs where modules may share a room."""
        tray = self._tray(model, size)
        alone = (rectangle.fill if exactly else rectangle.quick_fill)(*tray, model.reserves)
        laid = laying(model, self.module)
        if not laid.pairs:
            return alone
        paired = twins.fill(*tray, laid)
        return paired if paired.count > alone.count else alone

    def bound(self, size: PlanSize) -> int:
        """No more modules than this in a box of the size, found quickly."""
        return sum(rectangle.bound(*self._tray(model, size), model.reserves) for model in self.wider_models)

    def most_on(self, area: float) -> int:
        """No more modules than this where each tier has so much plan [mm2], whatever its shape."""
        least = (min(stance.size[0] * stance.size[1] for stance in kind.stances) for kind in self.kinds)
        return sum(int(area / one + 1e-6) for one in least)

    def quick_count(self, size: PlanSize, within: PlanSize) -> int:
        """Modules by straight cuts alone in a box of the size, which is no larger than `within`."""
        total = 0
        for model in self.models:
            table = _table(*self._tray(model, within), laying(model, self.module))
            total += table.count(*self._tray(model, size)) if table else 0
        return total

    def quick_fillings(self, size: PlanSize, within: PlanSize) -> tuple[Filling, ...]:
        """The placements behind `quick_count`."""
        found = []
        for model in self.models:
            laid = laying(model, self.module)
            table = _table(*self._tray(model, within), laid)
            found.append(laid.taken_apart(table.place(*self._tray(model, size)) if table else []))
        return tuple(found)

    def widths(self, most: float) -> list[float]:
        """Outside widths [mm] up to `most` at which some tier can gain a module, narrowest first."""
        return self._sizes(0, most)

    def depths(self, most: float) -> list[float]:
        """The same for depths [mm]."""
        return self._sizes(1, most)

    def _sizes(self, axis: int, most: float) -> list[float]:
        if (axis, most) not in self._known_sizes:
            self._known_sizes[axis, most] = self._make_sizes(axis, most)
        return self._known_sizes[axis, most]

    @cached_property
    def _known_sizes(self) -> dict[tuple[int, float], list[float]]:
        return {}

    def _make_sizes(self, axis: int, most: float) -> list[float]:
        walls = 2 * (self.rules.thickness + self.rules.liner)
        found = set()
        for model in (*self.models, *self.wider_models):
            room = units_within(most - walls - model.loss[axis])
            laid = laying(model, self.module)
            for total in sums((footprint[axis] for footprint in laid.footprints), max(room, 0)):
                if total:
                    found.add(total / UNITS_PER_MILLIMETRE + model.loss[axis] + walls)
        return sorted(found)


_tables: dict[tuple[object, ...], BlockTable] = {}


def _table(width: int, depth: int, laid: Laying) -> BlockTable | None:
    if width <= 0 or depth <= 0:
        return None
    key = (width, depth, laid.footprints, laid.weights if laid.pairs else ())
    if key not in _tables:
        _tables[key] = BlockTable(*key)
    return _tables[key]


def stacks(module: Module, rules: BoxRules, height: float) -> tuple[Stack, ...]:
    """Every stack of at most `rules.tiers` tiers that is no taller than `height` [mm], lowest first.

    Where rooms may be shared, the same stacks without sharing come besides: alone, they waste less at walls.
    """
    found = _stacks(module, rules, height)
    if module.room_shared and any(any(one.room_low[:2] + one.room_high[:2]) for one in stances(module)):
        found += _stacks(replace(module, room_shared=False), rules, height)
    return tuple(sorted(found, key=lambda stack: stack.height))


def _stacks(module: Module, rules: BoxRules, height: float) -> list[Stack]:
    kinds = tier_kinds(stances(module))
    found: list[Stack] = []
    for tiers in range(1, rules.tiers + 1):
        many = len(kinds) ** tiers > MOST_ORDERS
        orders = combinations_with_replacement(kinds[::-1], tiers) if many else product(kinds, repeat=tiers)
        fitting = [
            stack for order in orders if (stack := Stack(order, module, rules)).height <= height + 1e-6
        ]
        if not fitting:
            break
        found += fitting
    return found
