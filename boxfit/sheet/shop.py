"""How the fold shop works: its sheets, its K, the gap it welds."""

from dataclasses import dataclass

from boxfit.bay import Point
from boxfit.standards.bending import bend_allowance, k_factor


@dataclass(frozen=True)
class Shop:
    """`sheet` [mm] is the stock sheet; `gap` [mm] stands between edges before they are welded.

    `k` [-] is the shop's own K; None takes that of DIN 6935. Sheet and gap: common practice, no source.
    """

    sheet: Point = (2500.0, 1250.0)
    gap: float = 0.5
    k: float | None = None

    def takes(self, size: Point) -> bool:
        """Whether a blank [mm] fits the sheet, either way round."""
        return max(size) <= max(self.sheet) + 1e-6 and min(size) <= min(self.sheet) + 1e-6


@dataclass(frozen=True)
class Fold:
    """A right-angled bend of a sheet [mm] by inside radius [mm] and K [-]."""

    thickness: float
    radius: float
    k: float

    @property
    def allowance(self) -> float:
        """Sheet used up [mm]."""
        return bend_allowance(90.0, self.radius, self.thickness, self.k)

    @property
    def neutral(self) -> float:
        """Radius [mm] of the fibre that keeps its length."""
        return self.radius + self.k * self.thickness

    @property
    def outer(self) -> float:
        """How far [mm] the bend reaches in from the outside: radius and thickness."""
        return self.radius + self.thickness


def fold_of(thickness: float, radius: float, shop: Shop) -> Fold:
    """The right-angled bend that the shop makes.

    >>> round(fold_of(2.5, 2.5, Shop()).allowance, 3)
    5.203
    """
    return Fold(thickness, radius, k_factor(radius, thickness) if shop.k is None else shop.k)
