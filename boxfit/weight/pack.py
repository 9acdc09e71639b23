"""The pack as it hangs on the car: its boxes, each with its modules. [kg, mm]"""

from dataclasses import dataclass

from boxfit.weight.balance import Moments, moments
from boxfit.weight.corners import Mass
from boxfit.weight.scales import Item


@dataclass(frozen=True)
class Pack:
    """Every box with its modules as one item.

    `every_part` is true where the parts as made were weighed, fittings and bought parts too (screws and nuts
    apart); else they are the search's own sums, which leave out what is fixed to a box.
    """

    boxes: tuple[Item, ...]
    every_part: bool

    @property
    def masses(self) -> tuple[Mass, ...]:
        """Mass [kg] and centre [mm] of each box."""
        return tuple((box.mass, box.at) for box in self.boxes)

    @property
    def sums(self) -> Moments:
        """Mass [kg] and moments [kg mm] of the whole pack."""
        return moments(self.masses)
