"""Several boxes in one bay: one set down in a corner of what is free, the next in what that leaves.

Each box keeps the clearance from those before it, flange and all, and there is an order in which all go in.
What is found holds; that nothing better exists is for the bound to say.
"""

from collections.abc import Iterator
from dataclasses import replace

import shapely

from boxfit.bay import Point
from boxfit.lid_details import cover_height
from boxfit.search.arrangement import Arrangement
from boxfit.search.bay import BaySearch
from boxfit.search.box_grid import on_grid
from boxfit.search.candidate import Candidate
from boxfit.search.cuboids import Cuboid, Standing, cuboids, way_round
from boxfit.search.floors import floors, height_for_boxes, lowest
from boxfit.search.form import Form
from boxfit.space.plan import SLACK

FORMS_PER_COUNT = 3
"""Plan sizes looked at for each number of modules: the smallest."""
MOST_PLACES_TRIED = 16
"""Corners of what is free that a box is set down in."""
MOST_SET_DOWN = 3000
"""Boxes set down before the last one of each arrangement."""
KEPT_PER_COUNT = 4
"""Arrangements kept for each number of modules."""


def several(search: BaySearch, stepped: tuple[Form, ...]) -> tuple[Arrangement, ...]:
    """Arrangements of up to the allowed number of boxes that hold more modules than any one box found."""
    return _SetDown(search, stepped).found()


class _SetDown:
    """Boxes set down one after another, the fullest first."""

    def __init__(self, search: BaySearch, stepped: tuple[Form, ...]) -> None:
        self.search = search
        self.rules = search.bay.box
        counts = range(search.most, 0, -1)
        plain = [form for count in counts for form in _smallest(search.boxes(count))]
        self.forms: list[Form] = [*sorted(stepped, key=lambda form: -form.count), *plain]
        self.beaten = max((form.count for form in self.forms), default=0)
        self.kept: dict[int, list[Arrangement]] = {}
        self.left = MOST_SET_DOWN
        self._free: dict[Form, shapely.Geometry] = {}

    def found(self) -> tuple[Arrangement, ...]:
        """The arrangements kept, those with the most modules first."""
        self._add((), self.rules.boxes)
        if self.rules.boxes > 2:
            plain = tuple(form for form in self.forms if isinstance(form, Candidate))
            self._lay_on_grid(plain)
        if self.rules.boxes >= self.search.bound:
            self._lay_on_grid(self.search.boxes(1))  # as many boxes as modules: each may have its own
        for count in range(max(self.kept, default=0) - 1, self.beaten, -1):
            fuller = self.kept.get(count + 1, [])
            fewer = dict.fromkeys(one.without_one() for one in fuller)
            self.kept.setdefault(count, [one for one in fewer if one is not None])
        return tuple(one for count in sorted(self.kept, reverse=True) for one in self.kept[count])

    def _lay_on_grid(self, forms: tuple[Candidate, ...]) -> None:
        if not self._is_settled:
            self._keep(on_grid(self.search, forms, self._above, max(self.kept, default=self.beaten)))

    @property
    def _is_over(self) -> bool:
        return self.left <= 0 or self._is_settled

    @property
    def _is_settled(self) -> bool:
        return self.search.watch.is_over or max(self.kept, default=0) >= self.search.bound

    def _add(self, standing: tuple[Standing, ...], boxes_left: int) -> None:
        """Sets down one more box wherever it may stand, and looks further from there."""
        total = sum(one.form.count for one in standing)
        most = standing[-1].form.count if standing else self.beaten
        for form in self._forms_beside(standing):
            if self._is_over or total + boxes_left * min(form.count, most) <= self._to_beat:
                return
            if form.count > most:
                continue
            free = self._left_free(form, standing)
            for corner in _corners(free)[: 1 if boxes_left == 1 else MOST_PLACES_TRIED]:
                box = Standing(form, corner, cuboids(form.placed(*corner), self.rules))
                self._keep((*standing, box))
                if boxes_left > 1 and not self._is_over:
                    self.left -= 1
                    self._add((*standing, box), boxes_left - 1)

    @property
    def _to_beat(self) -> int:
        """No use in looking for as many as this again once there are enough of them."""
        best = max(self.kept, default=self.beaten)
        return best if len(self.kept.get(best, ())) >= KEPT_PER_COUNT else max(best - 1, self.beaten)

    def _keep(self, standing: tuple[Standing, ...]) -> None:
        count = sum(one.form.count for one in standing)
        kept = self.kept.setdefault(count, []) if count > self.beaten else None
        if kept is None or len(kept) >= KEPT_PER_COUNT or self._bars(standing):
            return
        x, y = standing[0].corner
        boxes = ((one.form, (one.corner[0] - x, one.corner[1] - y)) for one in standing)
        kept.append(Arrangement(tuple(boxes)))

    def _bars(self, standing: tuple[Standing, ...]) -> bool:
        return way_round([one.fills for one in standing], self.search.bay) is None

    def _forms_beside(self, standing: tuple[Standing, ...]) -> list[Form]:
        """All forms, and plain ones raised so that they stand over a box set down before; fullest first."""
        raised: list[Form] = []
        top = lowest(self.search.bay) + height_for_boxes(self.search.bay)
        over = {one.placed.high[2] + self._above for one in standing}
        for form in self.forms if over else []:
            if isinstance(form, Candidate):
                clear = {level for level in floors(self.search.bay, form.stack) if level > min(over)}
                levels = (level for level in over | clear if level + form.stack.height <= top + SLACK)
                raised += [replace(form, bottom=level) for level in sorted(levels)]
        return sorted([*self.forms, *raised], key=lambda form: -form.count) if raised else self.forms

    @property
    def _above(self) -> float:
        """From the lid of one box to the next one above it [mm]: the clearance, or room for a cover plate;
        and the bars under its floor."""
        plate = cover_height(self.rules) if self.rules.lid_thickness else 0.0
        return max(self.rules.clearance, plate) + self.rules.bars_below

    def _left_free(self, form: Form, standing: tuple[Standing, ...]) -> shapely.Geometry:
        """Where the low corner of a form may be beside the boxes that stand."""
        if form not in self._free:
            self._free[form] = form.places(self.search.rooms)
        free = self._free[form]
        if free.is_empty or not standing:
            return free
        own = cuboids(form.placed(0.0, 0.0), self.rules)
        taken = [
            shapely.box(*_kept_off(part, other, self.rules.clearance))
            for one in standing
            for other in one.fills
            for part in own
            if _beside(part, other, self.rules.clearance)
        ]
        return free.difference(shapely.union_all(taken))


def _smallest(boxes: tuple[Candidate, ...]) -> list[Candidate]:
    return sorted(boxes, key=lambda box: (box.size.width * box.size.depth, box.size.width))[:FORMS_PER_COUNT]


def _beside(part: Cuboid, other: Cuboid, clearance: float) -> bool:
    """True where the two are level enough to keep the clearance [mm] in plan."""
    above, below = part.low[2] - other.high[2], other.low[2] - part.high[2]
    return max(above, below) < clearance - SLACK or max(above, below) < -SLACK


def _kept_off(part: Cuboid, other: Cuboid, clearance: float) -> tuple[float, float, float, float]:
    """The block of shifts [mm] that would bring `part` nearer to `other` than the clearance."""
    off = clearance - SLACK
    return (
        other.low[0] - off - part.high[0],
        other.low[1] - off - part.high[1],
        other.high[0] + off - part.low[0],
        other.high[1] + off - part.low[1],
    )


def _corners(free: shapely.Geometry) -> list[Point]:
    """Corners of what is free, evenly thinned out, in a fixed order."""
    found = sorted(set(_all_corners(free)))
    step = max(1, -(-len(found) // MOST_PLACES_TRIED))
    return found[::step]


def _all_corners(free: shapely.Geometry) -> Iterator[Point]:
    for part in shapely.get_parts(free):
        if isinstance(part, shapely.Polygon) and part.area > 0:
            for x, y in part.exterior.coords:
                yield (round(x, 6), round(y, 6))
