"""What the pack asks of a box that could be, whatever its shape."""

from typing import TYPE_CHECKING, Protocol

from boxfit.layout import PlacedBox
from boxfit.search.stack import PlanSize, Stack

if TYPE_CHECKING:
    import shapely

    from boxfit.search.floors import Rooms


class Form(Protocol):
    """A box without a place in plan, its modules inside it."""

    @property
    def stack(self) -> Stack:
        """Its tiers."""

    @property
    def size(self) -> PlanSize:
        """Its extent in plan [mm]."""

    @property
    def bottom(self) -> float:
        """The level [mm] its underside is on."""

    @property
    def count(self) -> int:
        """Modules in it."""

    @property
    def corners(self) -> int:
        """Its corners in plan."""

    def placed(self, low_x: float, low_y: float) -> PlacedBox:
        """The box with the low corner of its extent at x, y [mm]."""

    def places(self, rooms: "Rooms") -> "shapely.Geometry":
        """Where the low corner [mm] of its extent may be."""

    def without_one(self) -> "Form | None":
        """The box with one module fewer where it stands; None where every tier needs all it has."""

    def turned_over(self) -> "tuple[Form, ...]":
        """The box and its mirror images, as far as they keep every allowance."""
