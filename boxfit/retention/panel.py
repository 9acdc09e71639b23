"""Floors, walls, lids and shelves as plates under what presses on them. [N, mm, MPa]

Linear theory, all edges taken as supported: the folds and welds along them hold more than that. Where the sag
leaves linear theory the figure stays, as it is on the safe side, and what the plate does beyond is told.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import ceil

from boxfit.retention.use import Use
from boxfit.standards.plates import plate, strip_held_at_ends, yield_line_pressure
from boxfit.standards.strengths import PARTIAL_YIELD, THROAT, Strength, beside_weld, fillet_resistance

SHEETS = (1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0)
"""Sheet [mm] that a workshop gets."""
MOST_BARS = 12
FRAME = "a frame of its own that holds the modules, proved on its own"
"""Where no sheet and no bars do."""
RULE = "Roark table 11.4 case 1a, all edges supported, linear"


@dataclass(frozen=True)
class Panel:
    """A plate of a box: its name, two sides and thickness [mm], and its metal."""

    name: str
    size: tuple[float, float]
    thickness: float
    metal: Strength

    def share(self, pressure: float) -> float:
        """Linear stress over yield strength for design [-]."""
        return self.stress(pressure) * PARTIAL_YIELD / self.metal.yielding

    def stress(self, pressure: float) -> float:
        """The greatest stress [MPa] by linear theory."""
        return plate(self.size, self.thickness, pressure, self.metal.modulus, "supported").stress


def use_of_panel(panel: Panel, what: str, pull: str, pressure: float) -> Use:
    """A panel under an even pressure [MPa]; `what` tells what presses."""
    bears = panel.metal.yielding / PARTIAL_YIELD
    use = Use(panel.name, f"bent by {what}", pull, panel.stress(pressure), bears, "MPa", RULE)
    use = replace(use, beyond=beyond_linear(panel, pressure))
    return use if use.passes else replace(use, remedy="; or ".join(_remedies(panel, pressure)) or FRAME)


def beyond_linear(panel: Panel, pressure: float) -> str:
    """What is to be known where linear theory ends; empty where it holds."""
    bent = plate(panel.size, panel.thickness, pressure, panel.metal.modulus, "supported")
    if bent.linear:
        return ""
    skin = strip_held_at_ends(min(panel.size), panel.thickness, pressure, panel.metal.modulus)
    lines = yield_line_pressure(panel.size, panel.thickness, panel.metal.yielding / PARTIAL_YIELD)
    return (
        f"linear sag {bent.sag:.1f} mm is over half the thickness: figure on the safe side; were the edges"
        f" kept from drawing in, a strip across would sag {skin.sag:.1f} mm at {skin.stress:.0f} MPa"
        f" (Timoshenko, cylindrical bending); by yield lines, bending alone, {100.0 * pressure / lines:.0f} %"
    )


def _remedies(panel: Panel, pressure: float) -> Iterator[str]:
    """The first thickness that passes, and the fewest bars across that part the panel enough."""
    thicker = (replace(panel, thickness=sheet) for sheet in SHEETS if sheet > panel.thickness)
    if enough := next((one for one in thicker if one.share(pressure) <= 1.0), None):
        yield f"{enough.thickness:g} mm thick"
    long, short = max(panel.size), min(panel.size)
    for bars in range(1, MOST_BARS + 1):
        part = replace(panel, size=(long / (bars + 1), short))
        if part.share(pressure) <= 1.0:
            many = "s" if bars > 1 else ""
            yield f"{bars} stiffening bar{many} across it, {part.size[0]:.0f} mm apart, proved on their own"
            return


def use_of_seam(name: str, pull: str, load: float, seam: tuple[float, float], metal: Strength) -> Use:
    """A seam of so much length and sheet [mm] sheared by a load [N]: the fillet, or the sheet beside it."""
    length, thickness = seam
    bears = min(fillet_resistance(THROAT * thickness, length, metal), beside_weld(thickness, length, metal))
    rule = "EN 1993-1-8 4.5.3.3, EN 1999-1-1 8.6.3, softened zone"
    use = Use(name, "weld sheared", pull, load, bears, "N", rule)
    return (
        use
        if use.passes
        else replace(use, remedy=f"{ceil(length * use.utilisation)} mm of weld instead of {length:.0f}")
    )


def use_of_screws(name: str, pull: str, load: float, screws: tuple[int, float]) -> Use:
    """So many screws, each bearing so much in tension [N], pulled by a load [N] in all."""
    count, each = screws
    rule = "EN 1993-1-8 table 3.4, tension, class 8.8; rivet-nuts by their maker's figure"
    use = Use(name, "screws pulled", pull, load, count * each, "N", rule)
    enough = f"{ceil(load / each)} screws instead of {count or 'none'}"
    if not count:
        enough += ", on a flange wide enough for them: box.flange"
    return use if use.passes else replace(use, remedy=enough)
