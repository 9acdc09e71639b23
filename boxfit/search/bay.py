"""One bay: the most modules a box there can hold, a bound no layout exceeds, and boxes for smaller numbers.

The number depends on a box only through its plan size and stack, so for each stack and level the widths at
which something changes are tried with the greatest free depth each.
"""

from functools import cached_property

from boxfit.bay import Bay, Shell, Surface
from boxfit.module import Module
from boxfit.search.bay_bound import LEAST_LIFT, BayBound
from boxfit.search.candidate import Candidate
from boxfit.search.floors import Rooms, floors, height_for_boxes, lifts, span
from boxfit.search.rectangle import Filling
from boxfit.search.sizes import greatest, smallest
from boxfit.search.stack import PlanSize, Stack, stacks
from boxfit.search.watch import Watch
from boxfit.space.free import loosened_bay

ROUNDING = 0.1
"""Room [mm] that drawing curves with tangents may have cost; bounds give it back."""
MOST_LIFTS = 240
"""Lifts looked at for one bay at most."""
MANY, FEWER_LIFTS = 2000, 12
"""So many triangles make a free plan slow to draw; then no more than so many lifts."""
MOST_SETTLED = 12
"""Exact searches made for one bay at most."""


class BaySearch:
    """Everything the search knows of one bay and one module."""

    def __init__(self, bay: Bay, module: Module, watch: Watch | None = None) -> None:
        self.bay = bay
        self.module = module
        self.watch = watch or Watch()
        self.rooms = Rooms(bay)
        loose = loosened_bay(bay)
        self.loose_rooms = None if loose is None else self.rooms if loose is bay else Rooms(loose)
        xs = [x for x, _ in bay.room.outline]
        ys = [y for _, y in bay.room.outline]
        self.extent = PlanSize(max(xs) - min(xs), max(ys) - min(ys))
        self.stacks = stacks(module, bay.box, height_for_boxes(bay))
        self._boxes: dict[int, tuple[Candidate, ...]] = {}
        self._settled = 0
        self._climbed = 0

    @cached_property
    def best(self) -> Candidate | None:
        """A box with the most modules found; None where not one fits."""
        best: Candidate | None = None
        for stack in sorted(self.stacks, key=lambda stack: stack.bound(self.extent), reverse=True):
            if stack.bound(self.extent) <= (best.count if best else 0) or (best and self.watch.is_over):
                break
            best = self._standing(stack, best)
        return best

    def _standing(self, stack: Stack, best: Candidate | None) -> Candidate | None:
        """A fuller box than the best so far of this stack on any level, or else the best so far."""
        levels = floors(self.bay, stack)
        if isinstance(self.bay.room, Shell):
            beaten = best.count if best else 0
            if best and self._bound.quick(stack, *span(self.bay, stack), beaten) <= beaten:
                return best
            best = self._fullest(stack, levels[0], beaten) or best
            return self._lifted_up(stack, best)
        for bottom in levels:
            beaten = best.count if best else 0
            if bottom > levels[0] and self._bound.quick(stack, *span(self.bay, stack)) <= beaten:
                break
            best = self._fullest(stack, bottom, beaten) or best
        return best

    def _lifted_up(self, stack: Stack, best: Candidate | None) -> Candidate | None:
        """The same for a room of any shape: a lift that may allow more is parted, tried there."""
        todo = lifts(self.bay, stack)
        while todo and not self.watch.is_over:
            bottom, top = todo.pop(0)
            beaten = best.count if best else 0
            if self._bound.quick(stack, bottom, top, beaten) <= beaten:
                continue
            if self._climbed < self.most_lifts and top - bottom >= LEAST_LIFT:
                self._climbed += 1
                inside = [level for level in floors(self.bay, stack) if bottom < level < top]
                middle = inside[0] if inside else (bottom + top) / 2
                best = self._fullest(stack, middle, beaten) or best
                todo += [(bottom, middle), (middle, top)]
        return best

    @property
    def is_dense(self) -> bool:
        """True where very many triangles make free plans slow to draw."""
        solids = [keepout.solid for keepout in self.bay.keepouts]
        surfaces = [solid for solid in solids if isinstance(solid, Surface)]
        if isinstance(self.bay.room, Shell):
            surfaces.append(self.bay.room.surface)
        return any(len(surface.triangles) > MANY for surface in surfaces)

    @property
    def most_lifts(self) -> int:
        """Lifts looked at for this bay at most."""
        return FEWER_LIFTS if self.is_dense else MOST_LIFTS

    def _fullest(self, stack: Stack, bottom: float, beaten: int) -> Candidate | None:
        """The fullest box of this stack on this level if it holds more than `beaten`.

        Blocks first, for every size; then the exact searches where the bound leaves something to find.
        """
        best = None
        sizes = sorted(
            greatest(stack, self.rooms.at(stack, bottom), self.extent), key=stack.bound, reverse=True
        )
        for exactly in (False, True):
            for size in sizes:
                if stack.bound(size) <= beaten:
                    break
                if exactly and not self.may_settle():
                    break
                candidate = Candidate(stack, size, bottom, stack.fillings(size, exactly))
                if candidate.count > beaten and candidate.fills_its_height:
                    best, beaten = candidate.trimmed(), candidate.count
        return best

    def may_settle(self) -> bool:
        """Counts the exact searches made for this bay; False when there have been enough."""
        self._settled += 1
        return self._settled <= MOST_SETTLED and not self.watch.is_over

    @property
    def most(self) -> int:
        """Modules in the fullest box found."""
        return self.best.count if self.best else 0

    @cached_property
    def spare(self) -> float:
        """Room [mm] that bounds give back: where distances make round edges, drawn with tangents."""
        import shapely

        room = self.bay.room
        if isinstance(room, Shell) or self.bay.keepouts:
            return ROUNDING
        outline = shapely.Polygon(room.outline)
        return ROUNDING if outline.convex_hull.area > outline.area + 1e-6 else 0.0

    @cached_property
    def _bound(self) -> BayBound:
        return BayBound(self)

    @cached_property
    def bound(self) -> int:
        """No layout that keeps every allowance has more modules than this in the bay."""
        return self._bound.anywhere()

    def boxes(self, count: int) -> tuple[Candidate, ...]:
        """Boxes for exactly `count` modules, none larger than another of the same stack on the same level."""
        if count not in self._boxes:
            self._boxes[count] = tuple(self._boxes_for(count))
        return self._boxes[count]

    def _boxes_for(self, count: int) -> list[Candidate]:
        found: list[Candidate] = []
        for stack in self.stacks:
            known = self.best is not None and self.best.stack == stack and self.best.count >= count
            if stack.bound(self.extent) < count or (found and self.watch.is_over):
                continue
            if not known and self._bound.quick(stack, *span(self.bay, stack), count - 1) < count:
                continue
            for bottom in floors(self.bay, stack):
                sizes = smallest(stack, self.rooms.at(stack, bottom), self.extent, count)
                boxes = [
                    Candidate(stack, size, bottom, _filled(stack, size, self.extent, count)) for size in sizes
                ]
                boxes = [box.trimmed() for box in boxes if box.count == count and box.fills_its_height]
                found += boxes
                if boxes:
                    break
        if self.best and self.best.count == count and all(box.stack != self.best.stack for box in found):
            found.append(self.best)
        return found


def _filled(stack: Stack, size: PlanSize, extent: PlanSize, count: int) -> tuple[Filling, ...]:
    """Fillings with what exceeds `count` taken out of the upper tiers, the furthest forward first."""
    fillings = list(stack.quick_fillings(size, extent))
    extra = sum(filling.count for filling in fillings) - count
    for tier in reversed(range(len(fillings))):
        kept = max(fillings[tier].count - extra, 1)
        extra -= fillings[tier].count - kept
        ordered = sorted(fillings[tier].placements, key=lambda place: (place[1], place[2]))
        fillings[tier] = Filling(kept, kept, tuple(sorted(ordered[:kept])))
    return tuple(fillings)
