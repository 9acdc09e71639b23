"""A box that could be: its stack, its plan size, the level it stands on and where its modules stand in it."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from boxfit.bay import Vector
from boxfit.layout import PlacedBox, PlacedModule, Tier
from boxfit.search.floors import Rooms
from boxfit.search.raster import UNITS_PER_MILLIMETRE
from boxfit.search.rectangle import Filling
from boxfit.search.stack import PlanSize, Stack
from boxfit.search.tier import stance_height

if TYPE_CHECKING:
    import shapely


@dataclass(frozen=True)
class Candidate:
    """A box without a place in plan: plan size [mm], underside [mm], one filling per tier."""

    stack: Stack
    size: PlanSize
    bottom: float
    fillings: tuple[Filling, ...]

    @property
    def count(self) -> int:
        """Modules in the box."""
        return sum(filling.count for filling in self.fillings)

    @property
    def corners(self) -> int:
        """A rectangle's."""
        return 4

    @property
    def outside(self) -> Vector:
        """Outside size [mm] of walls, floor and lid."""
        return (self.size.width, self.size.depth, self.stack.height)

    @property
    def fills_its_height(self) -> bool:
        """True where every tier has a module that needs the tier's full height."""
        return all(
            any(stance_height(model.stances[kind_of]) == kind.height for kind_of, _, _ in filling.placements)
            for kind, model, filling in zip(self.stack.kinds, self.stack.models, self.fillings, strict=True)
        )

    def trimmed(self) -> "Candidate":
        """The same modules in the smallest box around them."""
        sizes = []
        for axis in (0, 1):
            needed = 0.0
            for model, filling in zip(self.stack.models, self.fillings, strict=True):
                reach = max(place[1 + axis] + model.reserve(place[0])[axis] for place in filling.placements)
                needed = max(needed, reach / UNITS_PER_MILLIMETRE + model.loss[axis])
            sizes.append(needed + 2 * self._wall)
        return Candidate(self.stack, PlanSize(*sizes), self.bottom, self.fillings)

    @property
    def _wall(self) -> float:
        return self.stack.rules.thickness + self.stack.rules.liner

    def placed(self, low_x: float, low_y: float) -> PlacedBox:
        """The box with its low corner at x, y [mm]."""
        low = (low_x, low_y, self.bottom)
        tiers = []
        for place, (level, kind) in enumerate(zip(self.stack.levels, self.stack.kinds, strict=True)):
            modules = tuple(
                self._module(place, filled, low, level) for filled in self.fillings[place].placements
            )
            tiers.append(Tier(self.bottom + level, kind.height, modules))
        high = (low_x + self.size.width, low_y + self.size.depth, self.bottom + self.stack.height)
        return PlacedBox(low, high, tuple(tiers))

    def places(self, rooms: Rooms) -> "shapely.Geometry":
        """Where its low corner [mm] may be."""
        return rooms.at(self.stack, self.bottom).places(self.size.width, self.size.depth)

    def without_one(self) -> "Candidate | None":
        """The box less a module of its upper tiers, the furthest forward that can be spared, drawn in."""
        for tier in reversed(range(len(self.fillings))):
            placements = self.fillings[tier].placements
            for spared in sorted(placements, key=lambda place: place[1:], reverse=True):
                left = tuple(place for place in placements if place != spared)
                filling = Filling(len(left), len(left), left)
                fewer = replace(self, fillings=(*self.fillings[:tier], filling, *self.fillings[tier + 1 :]))
                if left and fewer.fills_its_height:
                    return fewer.trimmed()
        return None

    def turned_over(self) -> tuple["Candidate", ...]:
        """The box and its mirror images, which keep every allowance where rooms look up or both ways.

        They differ in where the modules' mass lies in the box. Where a room looks to one side only, a mirror
        image would turn it, and the box stays alone.
        """
        stances = [stance for model in self.stack.models for stance in model.stances]
        if any(stance.room_low[:2] != stance.room_high[:2] for stance in stances):
            return (self,)
        images = (_mirrored(self, in_x, in_y) for in_x in (False, True) for in_y in (False, True))
        return tuple({image.fillings: image for image in images}.values())

    def _module(self, tier: int, placement: tuple[int, int, int], low: Vector, level: float) -> PlacedModule:
        model = self.stack.models[tier]
        kind, *corner = placement
        x, y = (
            low[axis]
            + self._wall
            + model.start[axis]
            + corner[axis] / UNITS_PER_MILLIMETRE
            + model.lead[kind][axis]
            for axis in (0, 1)
        )
        return PlacedModule(model.stances[kind], (x, y, low[2] + level))


def _mirrored(candidate: Candidate, in_x: bool, in_y: bool) -> Candidate:
    """Placements counted from the other end of the tray, reserves keeping what they reserve."""
    fillings = []
    walls = 2 * (candidate.stack.rules.thickness + candidate.stack.rules.liner)
    for model, filling in zip(candidate.stack.models, candidate.fillings, strict=True):
        trays = [
            round((side - walls - model.loss[axis]) * UNITS_PER_MILLIMETRE)
            for axis, side in enumerate((candidate.size.width, candidate.size.depth))
        ]
        placements = tuple(
            sorted(
                (
                    kind,
                    trays[0] - x - model.reserves[kind][0] if in_x else x,
                    trays[1] - y - model.reserves[kind][1] if in_y else y,
                )
                for kind, x, y in filling.placements
            )
        )
        fillings.append(Filling(filling.count, filling.bound, placements))
    return Candidate(candidate.stack, candidate.size, candidate.bottom, tuple(fillings))
