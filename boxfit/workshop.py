"""How the shops that cut, fold, weld and print work: sheets and machines, and how far out they may be."""

from dataclasses import dataclass

from boxfit.surface import Point, Vector


@dataclass(frozen=True)
class FoldedK:
    """The shop's own K [-] for a sheet of one thickness and one inside radius [mm], from its test bends."""

    thickness: float
    radius: float
    k: float


@dataclass(frozen=True)
class FoldShop:
    """Who cuts, folds and welds. Every figure here: common practice, no source.

    `sheet` [mm] is the stock sheet, `brake` [mm] the longest fold; `weld_gap` [mm] stands between edges
    before they are welded, `weld_bead` [mm] is what a weld fills of the corner inside. `least_flange` [mm]
    is the shortest leg the brake holds, None where the rule 3 t + r tells it. `k_table` is empty where K is
    that of DIN 6935. On the sheet parts lie `part_gap` [mm] apart and `sheet_edge` [mm] from its edge.
    `prices` tell what a kilogram of a material costs, in any money; of those that are given.
    """

    sheet: Point = (2500.0, 1250.0)
    brake: float = 2500.0
    least_flange: float | None = None
    weld_gap: float = 0.5
    weld_bead: float = 3.0
    k_table: tuple[FoldedK, ...] = ()
    part_gap: float = 8.0
    sheet_edge: float = 10.0
    prices: tuple[tuple[str, float], ...] = ()

    def own_k(self, thickness: float, radius: float) -> float | None:
        """The shop's K [-] for a sheet and an inside radius [mm]; None where its table does not hold both.

        >>> FoldShop(k_table=(FoldedK(2.5, 2.5, 0.41),)).own_k(2.5, 2.5)
        0.41
        """
        rows = (row for row in self.k_table if abs(row.thickness - thickness) < 1e-6)
        return next((row.k for row in rows if abs(row.radius - radius) < 1e-6), None)

    def takes(self, size: Point) -> bool:
        """Whether a blank [mm] fits the sheet, either way round, its edge left free."""
        long, short = (side - 2.0 * self.sheet_edge for side in sorted(self.sheet, reverse=True))
        return max(size) <= long + 1e-6 and min(size) <= short + 1e-6


JOINT_KEY = 20.0
"""How far [mm] the key of a printed joint reaches into the next piece (common practice, no source)."""
LEAST_BED = 3.0 * JOINT_KEY
"""Least bed [mm] of a printer, each way: a piece with a joint at each end and something between."""


@dataclass(frozen=True)
class PrintShop:
    """Who prints: `bed` [mm], air [mm] on each side of a keyed `joint`, the `least_wall` [mm].

    Every figure here: common practice, no source.
    """

    bed: Vector = (250.0, 250.0, 250.0)
    joint: float = 0.2
    least_wall: float = 1.2


@dataclass(frozen=True)
class Tolerances:
    """How far out things may be, plus or minus [mm]; `fold_angle` [degrees]. Common practice, no source.

    `fold` is for each bend, `weld` for what shrinkage moves a welded wall, `cut` for an edge, `printed` for a
    printed wall, `module` for each side of a module, `liner` for the thickness of a sheet of liner.
    """

    module: float = 0.5
    liner: float = 0.3
    cut: float = 0.2
    fold: float = 0.25
    fold_angle: float = 0.5
    weld: float = 1.0
    printed: float = 0.3


USUAL_FOLD_SHOP = FoldShop()
USUAL_PRINT_SHOP = PrintShop()
USUAL_TOLERANCES = Tolerances()
