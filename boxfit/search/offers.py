"""What one bay offers the pack: for each number of modules its boxes, those with the fewest corners first."""

from functools import cached_property

from boxfit.search.arrangement import Arrangement
from boxfit.search.bay import BaySearch
from boxfit.search.form import Form
from boxfit.search.several import several
from boxfit.search.stepped import stepped_boxes


class Offers:
    """The boxes of one bay: a plain one, stepped ones that hold more, several where that many are allowed."""

    def __init__(self, search: BaySearch) -> None:
        self.search = search
        self._plain: dict[int, tuple[Arrangement, ...]] = {}
        self._corners: dict[int, tuple[int, ...]] = {}

    @property
    def most(self) -> int:
        """Modules in the fullest arrangement found."""
        return max([self.search.most, *(one.count for one in self._beyond)])

    @property
    def bound(self) -> int:
        """No layout that keeps every allowance has more modules than this in the bay."""
        return max(self.most, self.search.bound)

    def corners(self, count: int) -> tuple[int, ...]:
        """The numbers of corners with which this many modules can be had, ascending; 0 for none."""
        if count == 0:
            return (0,)
        if count not in self._corners:
            self._corners[count] = tuple(sorted({one.corners for one in self._for(count)}))
        return self._corners[count]

    def arrangements(self, count: int, corners: int) -> tuple[Arrangement, ...]:
        """Boxes for exactly `count` modules with this many corners in all."""
        return tuple(one for one in self._for(count) if one.corners == corners)

    def _for(self, count: int) -> tuple[Arrangement, ...]:
        if count not in self._plain:
            plain = tuple(Arrangement.of(box) for box in self.search.boxes(count))
            self._plain[count] = (*plain, *(one for one in self._beyond if one.count == count))
        return self._plain[count]

    @cached_property
    def _beyond(self) -> tuple[Arrangement, ...]:
        """Arrangements of more modules than one plain box holds."""
        rules, most = self.search.bay.box, self.search.most
        if (rules.shape == "rectangular" and rules.boxes == 1) or self.search.bound <= most:
            return ()
        stepped: tuple[Form, ...] = ()
        if rules.shape == "stepped":
            stepped = stepped_boxes(self.search, most, self.search.watch)
        found = tuple(Arrangement.of(box) for box in stepped)
        if rules.boxes > 1 and max([most, *(one.count for one in found)]) < self.search.bound:
            found += several(self.search, stepped)
        return found
