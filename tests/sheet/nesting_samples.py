"""Flats of our own making for stock sheets and lists."""

from dataclasses import replace

from boxfit.sheet.flat import Bend, Contour, Corner, Flat, Hole, straight
from boxfit.sheet.stock import Wanted
from boxfit.workshop import FoldShop

SHOP = FoldShop()
MATERIAL = "aluminium-5754"


def plate(name: str, wide: float, deep: float, quantity: int = 1) -> Flat:
    """A rectangle."""
    corners = [(0.0, 0.0), (wide, 0.0), (wide, deep), (0.0, deep)]
    return Flat(name, MATERIAL, 2.5, (straight(corners),), (wide, deep, 2.5), quantity=quantity)


def rounded(name: str, wide: float, deep: float, radius: float) -> Flat:
    """A rectangle with round corners, a rectangular opening and two holes."""
    quarter = 2.0**0.5 - 1.0
    outer: Contour = (
        Corner(radius, 0.0),
        Corner(wide - radius, 0.0, quarter),
        Corner(wide, radius),
        Corner(wide, deep - radius, quarter),
        Corner(wide - radius, deep),
        Corner(radius, deep, quarter),
        Corner(0.0, deep - radius),
        Corner(0.0, radius, quarter),
    )
    low, high = (wide * 0.4, deep * 0.4), (wide * 0.6, deep * 0.6)
    opening = straight([low, (high[0], low[1]), high, (low[0], high[1])])
    holes = tuple(Hole((wide * share, deep * 0.2), 5.5) for share in (0.2, 0.8))
    return Flat(name, MATERIAL, 2.5, (outer, opening), (wide, deep, 2.5), holes)


def wall(name: str, wide: float, deep: float, upright: bool, radius: float = 2.5) -> Flat:
    """A plate folded once, all along it or all up it."""
    flat = plate(name, wide, deep)
    ends = ((20.0, 0.0), (20.0, deep)) if upright else ((0.0, 20.0), (wide, 20.0))
    return replace(flat, bends=(Bend(*ends, True, 90.0, radius, 0.325, 5.2, 20.0),))


def wanted(*flats: Flat, shop: FoldShop = SHOP) -> tuple[Wanted, ...]:
    """Numbered in order."""
    return tuple(Wanted(flat, f"F1-{place:02d}", shop) for place, flat in enumerate(flats, start=1))
