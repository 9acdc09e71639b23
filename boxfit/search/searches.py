"""Bay searches made so far: what is asked again of an equal bay is not searched again."""

from boxfit.bay import Bay
from boxfit.module import Module
from boxfit.search.bay import BaySearch
from boxfit.search.offers import Offers
from boxfit.search.watch import Watch


class BaySearches:
    """The searches of any number of bays for one module, under one watch."""

    def __init__(self, module: Module, watch: Watch | None = None) -> None:
        self.module = module
        self.watch = watch or Watch()
        self._known: dict[Bay, Offers] = {}

    def offers(self, bay: Bay) -> Offers:
        """What this bay offers."""
        if bay not in self._known:
            self._known[bay] = Offers(BaySearch(bay, self.module, self.watch))
        return self._known[bay]

    def of(self, bay: Bay) -> BaySearch:
        """The search of this bay."""
        return self.offers(bay).search
