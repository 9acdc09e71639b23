"""One bay: the most modules a box there can hold, a bound no layout exceeds, and boxes for smaller numbers.

The number depends on a box only through its plan size and stack, so for each stack and level the widths at
which something changes are tried with the greatest free depth each.
"""

from functools import cached_property
from math import floor

from boxfit.bay import Bay, Shell, Surface
from boxfit.module import Module
from boxfit.search.candidate import Candidate
from boxfit.search.floors import LONGEST_LIFT, Room, Rooms, floors, height_for_boxes, lifts, span
from boxfit.search.rectangle import Filling
from boxfit.search.stack import PlanSize, Stack, stacks
from boxfit.search.watch import Watch
from boxfit.space.free import loosened_bay
from boxfit.surface import LEAST_PART

ROUNDING = 0.1
"""Room [mm] that drawing curves with tangents may have cost; bounds give it back."""
LEAST_LIFT = 1.0
"""Lifts [mm] are not split finer when a bound is sharpened."""
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
        self._lifted = 0
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
            if best and self._quick_bound(stack, *span(self.bay, stack), beaten) <= beaten:
                return best
            best = self._fullest(stack, levels[0], beaten) or best
            return self._lifted_up(stack, best)
        for bottom in levels:
            beaten = best.count if best else 0
            if bottom > levels[0] and self._quick_bound(stack, *span(self.bay, stack)) <= beaten:
                break
            best = self._fullest(stack, bottom, beaten) or best
        return best

    def _lifted_up(self, stack: Stack, best: Candidate | None) -> Candidate | None:
        """The same for a room of any shape: a lift that may allow more is parted, tried there."""
        todo = lifts(self.bay, stack)
        while todo and not self.watch.is_over:
            bottom, top = todo.pop(0)
            beaten = best.count if best else 0
            if self._quick_bound(stack, bottom, top, beaten) <= beaten:
                continue
            if self._climbed < self._most_lifts and top - bottom >= LEAST_LIFT:
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
    def _most_lifts(self) -> int:
        """Lifts looked at for this bay at most."""
        return FEWER_LIFTS if self.is_dense else MOST_LIFTS

    def _quick_bound(self, stack: Stack, bottom: float, top: float, enough: int = 0) -> int:
        """No more modules than this in a stack that stands anywhere between the levels [mm].

        What is quick to draw is asked first; where it allows no more than `enough`, that is the answer.
        """
        if self.loose_rooms is None:
            return stack.bound(self.extent)
        at_first = self._bound_at_first(stack, bottom, top, enough)
        if at_first <= enough:
            return at_first
        return min(at_first, self._bound_in(stack, self.loose_rooms.at(stack, bottom, top - bottom)))

    def _bound_at_first(self, stack: Stack, bottom: float, top: float, enough: int) -> int:
        """The same by the room's outline and, where that leaves more than `enough`, by the flange alone."""
        if self.loose_rooms is None:
            return stack.bound(self.extent)
        by_outline = self._bound_by_outline(stack, bottom, top)
        if by_outline <= enough or top - bottom > LONGEST_LIFT:
            return by_outline
        rim = self.loose_rooms.of_rim(stack, bottom, top - bottom)
        return by_outline if rim is None else min(by_outline, self._bound_in(stack, rim))

    def _bound_by_outline(self, stack: Stack, bottom: float, top: float) -> int:
        """No more modules than this for the sake of the room's outlines, or in a part too small for one."""
        import shapely

        anywhere = stack.bound(self.extent)
        if self.loose_rooms is None:
            return anywhere
        outline = self.loose_rooms.of_outline(stack, bottom, top - bottom)
        if outline is None:
            return anywhere
        unseen = LEAST_PART * shapely.Polygon(self.bay.room.outline).area
        return min(anywhere, max(self._bound_in(stack, outline), stack.most_on(unseen)))

    def _bound_in(self, stack: Stack, room: Room) -> int:
        """No more modules than this in a free plan that leaves out nothing."""
        return max(map(stack.bound, self._sizes(stack, room, self._spare)), default=0)

    def _fullest(self, stack: Stack, bottom: float, beaten: int) -> Candidate | None:
        """The fullest box of this stack on this level if it holds more than `beaten`.

        Blocks first, for every size; then the exact searches where the bound leaves something to find.
        """
        best = None
        sizes = sorted(self._sizes(stack, self.rooms.at(stack, bottom)), key=stack.bound, reverse=True)
        for exactly in (False, True):
            for size in sizes:
                if stack.bound(size) <= beaten:
                    break
                if exactly and not self._may_settle():
                    break
                candidate = Candidate(stack, size, bottom, stack.fillings(size, exactly))
                if candidate.count > beaten and candidate.fills_its_height:
                    best, beaten = candidate.trimmed(), candidate.count
        return best

    def _may_settle(self) -> bool:
        """Counts the exact searches made for this bay; False when there have been enough."""
        self._settled += 1
        return self._settled <= MOST_SETTLED and not self.watch.is_over

    def _sizes(self, stack: Stack, room: Room, spare: float = 0.0) -> list[PlanSize]:
        """The greatest plan sizes worth telling apart, `spare` [mm] larger than what is free."""
        found: list[PlanSize] = []
        for width in reversed(stack.widths(self.extent.width + spare)):
            depth = room.depth(width - spare) + spare
            if depth > spare and (not found or depth > found[-1].depth):
                found.append(PlanSize(width, depth))
        return found

    @property
    def most(self) -> int:
        """Modules in the fullest box found."""
        return self.best.count if self.best else 0

    @cached_property
    def bound(self) -> int:
        """No layout that keeps every allowance has more modules than this in the bay."""
        if self.bay.box.boxes > 1 or self.bay.box.shape == "stepped" or self.loose_rooms is None:
            return max(self.most, self._volume_bound())
        return max((self._stack_bound(stack) for stack in self.stacks), default=0)

    def _volume_bound(self) -> int:
        """Modules by volume of the room within its distances, for boxes of any shape and number."""
        import shapely

        free = shapely.Polygon(self.bay.room.outline).buffer(-self.bay.distance, join_style="mitre")
        volume = free.area * height_for_boxes(self.bay)
        body = self.module.length * self.module.width * self.module.height
        return floor(float(volume) / body + 1e-6)

    def _stack_bound(self, stack: Stack) -> int:
        """The bound over every level this stack may stand on."""
        low, high = span(self.bay, stack)
        anywhere = stack.bound(self.extent)
        if self.watch.is_over:
            return anywhere
        if anywhere > self.most and isinstance(self.bay.room, Shell):
            return min(anywhere, self._bound_between(stack, lifts(self.bay, stack), 0))
        if anywhere > self.most:
            anywhere = min(anywhere, self._quick_bound(stack, low, high))
        if anywhere <= self.most:
            return anywhere
        standing = max(self._bound_at(stack, bottom, 0.0) for bottom in floors(self.bay, stack))
        if low == high:
            return standing
        if standing > self.most:
            return anywhere
        return self._bound_between(stack, lifts(self.bay, stack), standing)

    def _bound_between(self, stack: Stack, todo: list[tuple[float, float]], bound: int) -> int:
        """The bound over all levels within the lifts [mm], halving those that seem to allow more."""
        while todo:
            bottom, top = todo.pop()
            within = self._bound_at(stack, bottom, top - bottom)
            self._lifted += 1
            if within <= self.most:
                bound = max(bound, within)
                continue
            if top - bottom < LEAST_LIFT or self._lifted > self._most_lifts or self.watch.is_over:
                return max(within, self._quick_bound(stack, *self._span(todo, bottom, top)))
            middle = (bottom + top) / 2
            todo += [(bottom, middle), (middle, top)]
        return bound

    def _span(self, lifts: list[tuple[float, float]], bottom: float, top: float) -> tuple[float, float]:
        """The lowest and highest level of this lift and those still to be looked at."""
        return min([bottom, *(lift[0] for lift in lifts)]), max([top, *(lift[1] for lift in lifts)])

    def _bound_at(self, stack: Stack, bottom: float, lift: float) -> int:
        """The bound for a stack standing anywhere from `bottom` up to `bottom` + `lift` [mm]."""
        if self.loose_rooms is None:
            return stack.bound(self.extent)
        at_first = self._bound_at_first(stack, bottom, bottom + lift, self.most)
        if at_first <= self.most:
            return at_first
        room = self.loose_rooms.at(stack, bottom, lift)
        bound = 0
        for size in sorted(self._sizes(stack, room, self._spare), key=stack.bound, reverse=True):
            quick = stack.bound(size)
            if quick <= bound:
                break
            if quick > self.most and self._may_settle():
                quick = sum(filling.bound for filling in stack.fillings(size, exactly=True))
            bound = max(bound, quick)
        return bound

    @cached_property
    def _spare(self) -> float:
        """Room [mm] that bounds give back: where distances make round edges, drawn with tangents."""
        import shapely

        room = self.bay.room
        if isinstance(room, Shell) or self.bay.keepouts:
            return ROUNDING
        outline = shapely.Polygon(room.outline)
        return ROUNDING if outline.convex_hull.area > outline.area + 1e-6 else 0.0

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
            if not known and self._quick_bound(stack, *span(self.bay, stack), count - 1) < count:
                continue
            for bottom in floors(self.bay, stack):
                sizes = _smallest(stack, self.rooms.at(stack, bottom), self.extent, count)
                boxes = [
                    Candidate(stack, size, bottom, _filled(stack, size, self.extent, count)) for size in sizes
                ]
                boxes = [box.trimmed() for box in boxes if box.fills_its_height]
                found += boxes
                if boxes:
                    break
        if self.best and self.best.count == count and all(box.stack != self.best.stack for box in found):
            found.append(self.best)
        return found


def _smallest(stack: Stack, room: Room, extent: PlanSize, count: int) -> list[PlanSize]:
    """Free plan sizes that hold `count` by straight cuts and cannot be narrower or shallower."""
    found: list[PlanSize] = []
    depths = stack.depths(extent.depth)
    place = len(depths) - 1
    for width in stack.widths(extent.width):
        if place < 0 or stack.quick_count(PlanSize(width, depths[place]), extent) < count:
            continue
        while place > 0 and stack.quick_count(PlanSize(width, depths[place - 1]), extent) >= count:
            place -= 1
        if (not found or depths[place] < found[-1].depth) and depths[place] <= room.depth(width) + 1e-6:
            found.append(PlanSize(width, depths[place]))
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
