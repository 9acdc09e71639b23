"""The section of a hold-down: which sheet, how high, where its screws go. Common practice, no source."""

from dataclasses import dataclass, replace

from boxfit.bay import BoxRules
from boxfit.box_details import FIT
from boxfit.standards.bending import least_inside_radius

PAD = 3.0
"""Cellular rubber as bought [mm], glued under the bars."""
PRESSED = 2.0
"""What is left of it [mm] once the bar is screwed down."""
SCREW = 6.0
HOLE = 6.6
"""For M6: ISO 273 medium, from memory."""
TAPPED = 5.0
"""Drill for a tapped M6, from memory."""
HEAD = 10.0
"""Socket head of M6, ISO 4762, from memory."""
HOLE_TO_EDGE = 1.5
"""What bars and plates keep round a hole, in thicknesses: the shops' rule (sheet/checks.py)."""
WASHER_HALF = 6.0
"""Half a small washer for M6 and a little air [mm]: ISO 7092, from memory."""
BLOCK_BARS = (12.0, 10.0, 8.0, 6.0, 5.0)
"""Flat bar [mm] that the tapped blocks are sawn from; M6 asks for 5 at least."""
BLOCK = (25.0, 8.0, 6.0)
"""Along the wall, below the screw and above it [mm]."""
TALLEST = 25.0
"""Bars stand no higher than this [mm]: more takes room from the leads."""
LEAST_SHEET = 2.0
"""Thinnest sheet of hold-downs [mm]: common practice, no source."""
SMALL_WASHER = 1.6
"""Thickness [mm] of a small washer for M6, ISO 7092, from memory."""
LENGTHS = (20.0, 16.0, 12.0, 10.0, 8.0)
"""Screws in stock [mm]."""
PLASTICS = ("abs", "petg", "pla", "hdpe")
FOR_PRINTED = "aluminium-5754"
"""What bars of a printed box are folded from."""


@dataclass(frozen=True)
class Section:
    """Sheet, block and heights [mm] of the hold-downs of one box."""

    material: str
    block_material: str
    thickness: float
    radius: float
    block: float

    @property
    def least_height(self) -> float:
        """The lowest bar whose screw's washer lies flat and off the edge.

        >>> Section("aluminium-5754", "aluminium-5754", 2.5, 2.5, 6.0).least_height
        17.0
        """
        return self.thickness + self.radius + 2.0 * WASHER_HALF

    @property
    def needed(self) -> float:
        """The least there must be above a module up to lid, shelf or ledge."""
        return PRESSED + self.least_height + FIT

    def screw_up(self, height: float) -> float:
        """How far the screw stands above the underside of a bar so high [mm].

        In the middle, or lower where the hole would come too near to the edge, its washer clear of the bend.

        >>> Section("stainless-1.4301", "aluminium-5083", 4.0, 4.0, 6.0).screw_up(25.0)
        15.7
        """
        lowest = self.thickness + self.radius + WASHER_HALF
        middle = lowest + (height - self.least_height) / 2.0
        return max(lowest, min(middle, height - HOLE / 2.0 - HOLE_TO_EDGE * self.thickness))

    def screw_length(self, gap: float) -> float:
        """The longest screw in stock that does not reach the wall; `gap` [mm] is between bar and block.

        The thinnest sheet and block take one of 8 mm.

        >>> Section("aluminium-5754", "aluminium-5754", 2.5, 2.5, 6.0).screw_length(0.0)
        10.0
        """
        return max(length for length in LENGTHS if length <= self.thickness + gap + self.block + SMALL_WASHER)


def section_of(rules: BoxRules) -> Section | None:
    """What fits the box; None where no block for M6 goes between walls and modules."""
    block = next((bar for bar in BLOCK_BARS if bar <= rules.liner + rules.gap - FIT + 1e-9), None)
    if block is None:
        return None
    printed = rules.process == "printed" or rules.material in PLASTICS
    material = rules.hold_down_material or (FOR_PRINTED if printed else rules.material)
    thick = max(LEAST_SHEET, rules.hold_down_thickness or (0.0 if printed else rules.thickness))
    return Section(material, rules.material, thick, _radius(material, thick, rules), block)


def spanning(section: Section, rules: BoxRules) -> Section:
    """The section of bars from wall to wall, which nothing but their ends holds: thicker where asked."""
    if not rules.hold_down_bar_thickness:
        return section
    thick = max(LEAST_SHEET, rules.hold_down_bar_thickness)
    return replace(section, thickness=thick, radius=_radius(section.material, thick, rules))


def _radius(material: str, thickness: float, rules: BoxRules) -> float:
    """Inside of the folds [mm]."""
    least = least_inside_radius(material, thickness)
    return max(rules.bend_radius if rules.process == "folded" else 0.0, least.radius if least else thickness)


def gap_remedy(rules: BoxRules) -> str:
    """What would make room for the thinnest block.

    >>> gap_remedy(BoxRules("steel-s235", "folded", "rectangular", 1, 1, 22, 1, 10, 2, 1, 5, 1, 1))
    'box.gap = 3.5'
    """
    return f"box.gap = {max(BLOCK_BARS[-1] + FIT - rules.liner, 0.0):g}"
