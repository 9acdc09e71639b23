"""A stepped box that could be: an outline round every tier and where its modules stand in it."""

from dataclasses import dataclass, replace

import shapely

from boxfit.bay import Vector
from boxfit.box_shape import corner_count, rectangles
from boxfit.layout import PlacedBox, PlacedModule, Tier
from boxfit.search.floors import Rooms
from boxfit.search.stack import PlanSize, Stack
from boxfit.search.tier import stance_height
from boxfit.surface import Outline

Body = tuple[int, float, float]
"""Which stance of its tier, and the low corner [mm] of a module from the low corner of the box."""


@dataclass(frozen=True)
class SteppedBox:
    """A box without a place in plan; outlines and bodies [mm] count from the low corner of its extent."""

    stack: Stack
    bottom: float
    outlines: tuple[Outline, ...]
    bodies: tuple[tuple[Body, ...], ...]

    @property
    def count(self) -> int:
        """Modules in the box."""
        return sum(map(len, self.bodies))

    @property
    def size(self) -> PlanSize:
        """Its extent in plan [mm]."""
        xs, ys = zip(*self.outlines[-1], strict=True)
        return PlanSize(max(xs), max(ys))

    @property
    def outside(self) -> Vector:
        """Its extent [mm], floor and lid included."""
        return (self.size.width, self.size.depth, self.stack.height)

    @property
    def corners(self) -> int:
        """Its corners in plan, those of every outline that differs from the one below it."""
        return corner_count(self.outlines)

    @property
    def fills_its_height(self) -> bool:
        """True where every tier has a module that needs the tier's full height."""
        return all(
            any(stance_height(model.stances[kind]) == tier.height for kind, _, _ in bodies)
            for tier, model, bodies in zip(self.stack.kinds, self.stack.models, self.bodies, strict=True)
        )

    def placed(self, low_x: float, low_y: float) -> PlacedBox:
        """The box with the low corner of its extent at x, y [mm]."""
        tiers = []
        for level, kind, model, bodies, outline in zip(
            self.stack.levels, self.stack.kinds, self.stack.models, self.bodies, self.outlines, strict=True
        ):
            stands_on = self.bottom + level
            modules = tuple(
                PlacedModule(model.stances[stance], (low_x + x, low_y + y, stands_on))
                for stance, x, y in bodies
            )
            moved = tuple((low_x + x, low_y + y) for x, y in outline)
            tiers.append(Tier(stands_on, kind.height, modules, moved))
        low = (low_x, low_y, self.bottom)
        high = (low_x + self.size.width, low_y + self.size.depth, self.bottom + self.stack.height)
        return PlacedBox(low, high, tuple(tiers))

    def places(self, rooms: Rooms) -> shapely.Geometry:
        """Where the low corner [mm] of its extent may be: where each of its rectangles may."""
        if len(set(self.outlines)) == 1:
            bands = [(rooms.at(self.stack, self.bottom), self.outlines[0])]
        else:
            bands = [
                (rooms.band(self.stack, self.bottom, tier), outline)
                for tier, outline in enumerate(self.outlines)
            ]
        free: shapely.Geometry | None = None
        for room, outline in bands:
            for low, high in rectangles(outline):
                place = room.places(high[0] - low[0], high[1] - low[1])
                place = shapely.transform(place, lambda corners, low=low: corners - low)
                free = place if free is None else shapely.intersection(free, place)
        return free if free is not None else shapely.Polygon()

    def without_one(self) -> "SteppedBox | None":
        """The box less a module of its upper tiers, the furthest forward to be spared; walls as they are."""
        for tier in reversed(range(len(self.bodies))):
            for spared in sorted(self.bodies[tier], key=lambda body: body[1:], reverse=True):
                left = tuple(body for body in self.bodies[tier] if body != spared)
                fewer = replace(self, bodies=(*self.bodies[:tier], left, *self.bodies[tier + 1 :]))
                if left and fewer.fills_its_height:
                    return fewer
        return None

    def turned_over(self) -> "tuple[SteppedBox, ...]":
        """The box and its mirror images where rooms look up or both ways, else the box alone."""
        stances = [stance for model in self.stack.models for stance in model.stances]
        if any(stance.room_low[:2] != stance.room_high[:2] for stance in stances):
            return (self,)
        images = (self._mirrored(in_x, in_y) for in_x in (False, True) for in_y in (False, True))
        return tuple(dict.fromkeys(images))

    def _mirrored(self, in_x: bool, in_y: bool) -> "SteppedBox":
        """Outlines and bodies counted from the other end."""
        outlines = tuple(self._mirrored_outline(outline, in_x, in_y) for outline in self.outlines)
        bodies = []
        for model, tier in zip(self.stack.models, self.bodies, strict=True):
            mirrored = []
            for stance, x, y in tier:
                width, depth, _ = model.stances[stance].size
                there_x = self.size.width - x - width if in_x else x
                there_y = self.size.depth - y - depth if in_y else y
                mirrored.append((stance, _tidy(there_x), _tidy(there_y)))
            bodies.append(tuple(sorted(mirrored)))
        return replace(self, outlines=outlines, bodies=tuple(bodies))

    def _mirrored_outline(self, outline: Outline, in_x: bool, in_y: bool) -> Outline:
        points = [
            (
                _tidy(self.size.width - x) if in_x else x,
                _tidy(self.size.depth - y) if in_y else y,
            )
            for x, y in outline
        ]
        if in_x != in_y:
            points.reverse()
        first = points.index(min(points))
        return tuple(points[first:] + points[:first])


def _tidy(length: float) -> float:
    """A length [mm] without the noise of subtracting."""
    return round(length, 6)
