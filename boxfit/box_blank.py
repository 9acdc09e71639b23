"""Whether a folded tray is one blank, its floor joint bent, or panels, its floor joint welded square.

Follows from outline, height and the workshop's rules alone. box/ makes the tray, weight/ weighs it, sheet/
lays it flat and solid/ shows it by this one answer. A blank is the floor with a wall and its flange folded up
on every side, round reliefs where two floor bends meet.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import asin, inf, pi, sqrt

from boxfit.bay import BoxRules, Point
from boxfit.box_details import bend_radius
from boxfit.standards.bending import bend_allowance, k_factor
from boxfit.surface import Outline
from boxfit.workshop import FoldShop

AIR = 1.0
"""Flanges and reliefs of neighbours lie at least this far [mm] apart in the blank, for the cut (our own)."""


@dataclass(frozen=True)
class Fold:
    """A right-angled bend of a sheet [mm] by inside radius [mm] and K [-].

    `by_table` is True where K is from the shop's own table, else it is that of DIN 6935.
    """

    thickness: float
    radius: float
    k: float
    by_table: bool = False

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


def fold_of(thickness: float, radius: float, shop: FoldShop) -> Fold:
    """The right-angled bend that the shop makes, with its own K where its table holds thickness and radius.

    >>> round(fold_of(2.5, 2.5, FoldShop()).allowance, 3)
    5.203
    """
    own = shop.own_k(thickness, radius)
    if own is not None:
        return Fold(thickness, radius, own, by_table=True)
    return Fold(thickness, radius, k_factor(radius, thickness))


@dataclass(frozen=True)
class Relief:
    """The round hole in a blank about the point where the middles of two floor bends meet.

    It takes all of the corner that both bends would use, and reaches the edge of either wall. `back` [mm] is
    how far edges stand back from the corner for the weld.
    """

    fold: Fold
    back: float

    @property
    def radius(self) -> float:
        """Its radius [mm]."""
        middle = self.fold.allowance / 2.0
        return max(middle * sqrt(2.0), middle - self.edge + self.fold.thickness / 4.0)

    @property
    def edge(self) -> float:
        """How far [mm] a wall reaches past the corner of the floor's flat, to where inside edges meet."""
        return self.fold.radius - self.back

    @property
    def foot(self) -> float:
        """How far [mm] above the floor's flat it ends and the wall's edge begins."""
        middle = self.fold.allowance / 2.0
        return middle + sqrt(self.radius**2 - (self.edge - middle) ** 2)

    @property
    def angle(self) -> float:
        """Of its arc [radians], from one wall's edge round the floor's corner to the next wall's."""
        lies = asin((self.edge - self.fold.allowance / 2.0) / self.radius)
        return 1.5 * pi + 2.0 * lies


def weld_back(shop: FoldShop) -> float:
    """How far [mm] along its side an edge stands back from a corner, so that two stand the weld gap apart."""
    return shop.weld_gap / sqrt(2.0)


@dataclass(frozen=True)
class BlankLimits:
    """Which rectangles [mm] of one height can be folded from one blank.

    Sides are from `least` to `longest` [mm]; the blank is `growth` [mm] longer than the outside both ways and
    goes on a sheet of which `long` by `short` [mm] are usable.
    """

    least: float
    longest: float
    growth: float
    long: float
    short: float

    def hold(self, size: Point) -> bool:
        """Whether a tray of this outside [mm] in plan is folded from one blank."""
        low, high = (size[0], size[1]) if size[0] < size[1] else (size[1], size[0])
        return (
            self.least < low
            and high <= self.longest
            and high + self.growth <= self.long
            and low + self.growth <= self.short
        )


NO_BLANK = BlankLimits(inf, 0.0, 0.0, 0.0, 0.0)
"""Of trays that are never one blank."""
ANY_SIZE = BlankLimits(-inf, inf, 0.0, inf, inf)
"""Of sheet without thickness, which nothing is made of."""
CLOSE = 1e-6


@lru_cache(maxsize=4096)
def blank_limits(rules: BoxRules, height: float) -> BlankLimits:
    """Which rectangular trays, so high [mm] from the outside of the floor to the rim, are one blank.

    The walls must take their bends and reliefs, neighbouring flanges lie apart in the blank, no fold is
    longer than the brake, and the blank goes on the sheet.
    """
    if rules.process != "folded":
        return NO_BLANK
    if rules.thickness <= 0.0:
        return ANY_SIZE
    shop, flange, thick = rules.fold_shop, rules.flange, rules.thickness
    fold, back = fold_of(thick, rules.bend_radius, shop), weld_back(shop)
    relief, outer = Relief(fold, back), fold.outer
    straight = height - outer - (outer if flange else 0.0)
    wall = fold.allowance + straight
    if straight < 0.0 or relief.foot >= wall or (flange and outer + flange + AIR > wall):
        return NO_BLANK
    # the flange's bend line ends near its mitres, see sheet/wall.py; the floor's bend lines at the reliefs
    past = (1.0 - pi / 4.0) * outer - thick - back if flange else -inf
    past = max(past, -(outer + relief.radius - fold.allowance / 2.0))
    upright = wall + (fold.allowance + flange - fold.radius if flange else 0.0)
    long, short = (side - 2.0 * shop.sheet_edge for side in sorted(shop.sheet, reverse=True))
    return BlankLimits(
        least=max(
            2.0 * (outer + relief.radius) + AIR, 2.0 * (thick + back) + CLOSE, 4.0 * back - 2.0 * flange
        ),
        longest=shop.brake - 2.0 * past + CLOSE,
        growth=2.0 * (upright - outer),
        long=long + CLOSE,
        short=short + CLOSE,
    )


def floor_radius(outlines: tuple[Outline, ...], height: float, rules: BoxRules) -> float | None:
    """Inside radius [mm] of the bend between floor and walls; None where that joint is square.

    `outlines` [mm] are those round each tier, `height` [mm] is from the outside of the floor to the rim.

    >>> from boxfit.box_shape import rectangle
    >>> rules = BoxRules("aluminium-5754", "folded", "rectangular", 2.5, 2.5, 22, 2, 10, 3, 4, 5, 1, 1)
    >>> floor_radius((rectangle((0, 0), (600, 400)),), 250.0, rules)
    2.5
    >>> floor_radius((rectangle((0, 0), (900, 800)),), 250.0, rules) is None  # 1330 across, 1230 usable
    True
    """
    (x, y), corner = outlines[0][0], outlines[0][2]
    if len(outlines[0]) > 4 or any(outline != outlines[0] for outline in outlines[1:]):
        return None
    size = (abs(corner[0] - x), abs(corner[1] - y))
    return bend_radius(rules) if blank_limits(rules, height).hold(size) else None
