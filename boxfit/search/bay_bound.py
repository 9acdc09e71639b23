"""No more modules than this in one bay: by levels and lifts for one plain box, else in any shape."""

from typing import TYPE_CHECKING

from boxfit.bay import Shell
from boxfit.search.floors import LONGEST_LIFT, Room, floors, lifts, span
from boxfit.search.sizes import greatest
from boxfit.search.stack import Stack
from boxfit.search.stepped_bound import stepped_bound
from boxfit.surface import LEAST_PART

if TYPE_CHECKING:
    from boxfit.search.bay import BaySearch

LEAST_LIFT = 1.0
"""Lifts [mm] are not split finer when a bound is sharpened."""


class BayBound:
    """What bounds the modules of one bay."""

    def __init__(self, search: "BaySearch") -> None:
        self.search = search
        self.bay = search.bay
        self.loose_rooms = search.loose_rooms
        self._lifted = 0

    def quick(self, stack: Stack, bottom: float, top: float, enough: int = 0) -> int:
        """No more modules than this in a stack that stands anywhere between the levels [mm].

        What is quick to draw is asked first; where it allows no more than `enough`, that is the answer.
        """
        if self.loose_rooms is None:
            return stack.bound(self.search.extent)
        at_first = self._at_first(stack, bottom, top, enough)
        if at_first <= enough:
            return at_first
        return min(at_first, self._in(stack, self.loose_rooms.at(stack, bottom, top - bottom)))

    def _at_first(self, stack: Stack, bottom: float, top: float, enough: int) -> int:
        """The same by the room's outline and, where that leaves more than `enough`, by the flange alone."""
        if self.loose_rooms is None:
            return stack.bound(self.search.extent)
        by_outline = self._by_outline(stack, bottom, top)
        if by_outline <= enough or top - bottom > LONGEST_LIFT:
            return by_outline
        rim = self.loose_rooms.of_rim(stack, bottom, top - bottom)
        return by_outline if rim is None else min(by_outline, self._in(stack, rim))

    def _by_outline(self, stack: Stack, bottom: float, top: float) -> int:
        """No more modules than this for the sake of the room's outlines, or in a part too small for one."""
        import shapely

        anywhere = stack.bound(self.search.extent)
        if self.loose_rooms is None:
            return anywhere
        outline = self.loose_rooms.of_outline(stack, bottom, top - bottom)
        if outline is None:
            return anywhere
        unseen = LEAST_PART * shapely.Polygon(self.bay.room.outline).area
        return min(anywhere, max(self._in(stack, outline), stack.most_on(unseen)))

    def _in(self, stack: Stack, room: Room) -> int:
        """No more modules than this in a free plan that leaves out nothing."""
        return max(map(stack.bound, greatest(stack, room, self.search.extent, self.search.spare)), default=0)

    def anywhere(self) -> int:
        """No layout that keeps every allowance has more modules than this in the bay."""
        rules, search = self.bay.box, self.search
        if not search.stacks:
            return 0
        if rules.boxes > 1 or rules.shape == "stepped" or self.loose_rooms is None:
            return max(search.most, stepped_bound(search))
        return max((self._of_stack(stack) for stack in search.stacks), default=0)

    def _of_stack(self, stack: Stack) -> int:
        """The bound over every level this stack may stand on."""
        low, high = span(self.bay, stack)
        anywhere = stack.bound(self.search.extent)
        if self.search.watch.is_over:
            return anywhere
        if anywhere > self.search.most and isinstance(self.bay.room, Shell):
            return min(anywhere, self._between(stack, lifts(self.bay, stack), 0))
        if anywhere > self.search.most:
            anywhere = min(anywhere, self.quick(stack, low, high))
        if anywhere <= self.search.most:
            return anywhere
        standing = max(self._at(stack, bottom, 0.0) for bottom in floors(self.bay, stack))
        if low == high:
            return standing
        if standing > self.search.most:
            return anywhere
        return self._between(stack, lifts(self.bay, stack), standing)

    def _between(self, stack: Stack, todo: list[tuple[float, float]], bound: int) -> int:
        """The bound over all levels within the lifts [mm], halving those that seem to allow more."""
        while todo:
            bottom, top = todo.pop()
            within = self._at(stack, bottom, top - bottom)
            self._lifted += 1
            if within <= self.search.most:
                bound = max(bound, within)
                continue
            if (
                top - bottom < LEAST_LIFT
                or self._lifted > self.search.most_lifts
                or self.search.watch.is_over
            ):
                return max(within, self.quick(stack, *self._span(todo, bottom, top)))
            middle = (bottom + top) / 2
            todo += [(bottom, middle), (middle, top)]
        return bound

    def _span(self, lifts: list[tuple[float, float]], bottom: float, top: float) -> tuple[float, float]:
        """The lowest and highest level of this lift and those still to be looked at."""
        return min([bottom, *(lift[0] for lift in lifts)]), max([top, *(lift[1] for lift in lifts)])

    def _at(self, stack: Stack, bottom: float, lift: float) -> int:
        """The bound for a stack standing anywhere from `bottom` up to `bottom` + `lift` [mm]."""
        if self.loose_rooms is None:
            return stack.bound(self.search.extent)
        at_first = self._at_first(stack, bottom, bottom + lift, self.search.most)
        if at_first <= self.search.most:
            return at_first
        room = self.loose_rooms.at(stack, bottom, lift)
        bound = 0
        for size in sorted(
            greatest(stack, room, self.search.extent, self.search.spare), key=stack.bound, reverse=True
        ):
            quick = stack.bound(size)
            if quick <= bound:
                break
            if quick > self.search.most and self.search.may_settle():
                quick = sum(filling.bound for filling in stack.fillings(size, exactly=True))
            bound = max(bound, quick)
        return bound
