"""What shape a box has, in the workshop's words."""

from itertools import pairwise

from boxfit.bay import BoxRules
from boxfit.layout import PlacedBox
from boxfit.report.bands import bands
from boxfit.report.columns import tenths
from boxfit.surface import Outline

BY_TURNS = {1: "U-shaped", 2: "stair-shaped", 3: "T-shaped", 4: "Z-shaped"}
"""Outlines of eight corners by how many corners after one inward corner the other one follows."""


def outline_words(outline: Outline) -> str:
    """The shape of an outline with up to eight corners.

    >>> outline_words(((0, 0), (2, 0), (2, 1), (1, 1), (1, 3), (0, 3)))
    'L-shaped'
    """
    if len(outline) == 4:
        return "rectangular"
    if len(outline) == 6:
        return "L-shaped"
    inward = [place for place, turn in enumerate(_turns(outline)) if turn < 0.0]
    if len(outline) != 8:
        return f"{len(outline)}-cornered"
    apart = inward[1] - inward[0]
    return BY_TURNS[min(apart, 8 - apart)]


def _turns(outline: Outline) -> list[float]:
    """Which way the outline turns at each corner: more than 0 outwards, less inwards."""
    corners = zip(outline[-1:] + outline[:-1], outline, outline[1:] + outline[:1], strict=True)
    return [
        (here[0] - before[0]) * (after[1] - here[1]) - (here[1] - before[1]) * (after[0] - here[0])
        for before, here, after in corners
    ]


def shape_words(box: PlacedBox, rules: BoxRules) -> str:
    """The shape of a stepped box: its outline, or how high the steps in its floor lie; else empty."""
    if not box.is_stepped:
        return ""
    pieces = bands(box, rules)
    if len(pieces) == 1:
        return outline_words(pieces[0].outline)
    heights = " and ".join(tenths(above.bottom - pieces[0].bottom) for _, above in pairwise(pieces))
    return f"stepped floor, {'steps' if len(pieces) > 2 else 'step'} {heights} mm above the lowest"


def tier_extent(box: PlacedBox, place: int) -> str:
    """Shape and outside in plan of a tier, counted from 1, where the floor is stepped; else empty.

    >>> from boxfit.layout import Tier
    >>> outlines = (((0, 0), (5, 0), (5, 2), (0, 2)), ((0, 0), (9, 0), (9, 2), (0, 2)))
    >>> wide = PlacedBox((0, 0, 0), (9, 2, 9), tuple(Tier(1, 3, (), one) for one in outlines))
    >>> tier_extent(wide, 1), tier_extent(wide, 2)
    ('rectangular, 5 x 2 mm outside', 'rectangular, 9 x 2 mm outside')
    """
    if len(set(box.outlines)) < 2:
        return ""
    outline = box.outlines[place - 1]
    length, width = (max(one) - min(one) for one in zip(*outline, strict=True))
    return f"{outline_words(outline)}, {tenths(length)} x {tenths(width)} mm outside"
