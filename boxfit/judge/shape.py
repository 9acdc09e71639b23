"""What a box is made of: outlines that can be believed, and the cuboids they stand for."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from boxfit.bay import BoxRules
from boxfit.judge.claim import ClaimedBox
from boxfit.judge.distance import Cuboid, Rectangle
from boxfit.judge.finding import SLACK, Finding
from boxfit.judge.outline import (
    Outline,
    extent,
    is_simple,
    is_square,
    largest,
    narrowest_notch,
    overreach,
    turns_left,
)

MOST_CORNERS = 8


@dataclass(frozen=True)
class Band:
    """A stretch of a box in which the outside of its walls keeps one outline [mm]."""

    outline: Outline
    low: float
    high: float

    @property
    def pieces(self) -> tuple[Cuboid, ...]:
        """The largest cuboids in it; they overlap."""
        return tuple(_standing(one, self.low, self.high) for one in largest(self.outline))


def bands(box: ClaimedBox, rules: BoxRules) -> tuple[Band, ...]:
    """The bands of a box, lowest first; a band begins where the sheet under its modules does.

    One band where no outlines are told.
    """
    (x, y, low), (ahead, left, high) = box.outside.low, box.outside.high
    if not box.outlines:
        return (Band(((x, y), (ahead, y), (ahead, left), (x, left)), low, high),)
    steps = [tier.stands_on - rules.thickness for tier in (box.tiers or ())[1:]]
    levels = pairwise((low, *steps, high))
    return tuple(Band(one, *ends) for one, ends in zip(box.outlines, levels, strict=True))


def rim(band: Band, rules: BoxRules) -> tuple[Cuboid, ...]:
    """The slabs of flange and lid round the uppermost band, the largest there are."""
    under = band.high - rules.rim_below_top - rules.thickness
    return tuple(_standing(_grown(one, rules.flange), under, band.high) for one in largest(band.outline))


def _standing(rectangle: Rectangle, low: float, high: float) -> Cuboid:
    """The cuboid over a rectangle between two levels [mm]."""
    return Cuboid((*rectangle.low, low), (*rectangle.high, high))


def _grown(one: Rectangle, by: float) -> Rectangle:
    """The rectangle with every side further out [mm]."""
    return Rectangle((one.low[0] - by, one.low[1] - by), (one.high[0] + by, one.high[1] + by))


def refuse_outlines(box: ClaimedBox, rules: BoxRules, place: str) -> list[Finding]:
    """Why the outlines told for a box stand for no box at all; nothing more can then be judged of it."""
    if not box.outlines:
        return []
    faults = [
        Finding("outline", f"{place}, tier {number}", *fault)
        for number, outline in enumerate(box.outlines, 1)
        for fault in [_fault(outline, rules, number == len(box.outlines))]
        if fault is not None
    ]
    if faults:
        return faults
    findings = [*_judge_nesting(box.outlines, place), *_judge_extent(box, place)]
    unordered = [band for band in bands(box, rules) if band.low >= band.high]
    if unordered:
        text = f"a tier told from {unordered[0].high:.3f} mm is no higher than the one below it"
        findings.append(Finding("tiers", place, text, unordered[0].high))
    return findings


def _fault(outline: Outline, rules: BoxRules, is_last: bool) -> tuple[str, float] | None:
    """What is wrong with one outline by itself, and its figure."""
    text = ""
    if not outline:
        text = "no outline told, though other tiers have one"
    elif not 4 <= len(outline) <= MOST_CORNERS:
        text = f"{len(outline)} corners, 4 to {MOST_CORNERS} allowed"
    elif not is_square(outline):
        text = "a side is not square to the car or to the side before it"
    elif not is_simple(outline):
        text = "a side meets another"
    elif not turns_left(outline):
        text = "the corners do not go round counter-clockwise"
    return (text, float(len(outline))) if text else _narrow(outline, rules, is_last)


def _narrow(outline: Outline, rules: BoxRules, is_last: bool) -> tuple[str, float] | None:
    """Where an outline is too narrow for its walls, or the last one's notch for its flanges, and how wide.

    Where every largest rectangle is wider than two walls, the inside is in one piece.
    """
    width = min(min(one.high[k] - one.low[k] for k in range(2)) for one in largest(outline))
    if width <= 2.0 * rules.thickness:
        return f"{width:.3f} mm wide at one place, no more than its two walls", width
    notch = narrowest_notch(outline) if is_last else None
    bars = 0.0 if rules.process == "printed" else rules.stiffening_depth
    takes, what = max((2.0 * rules.flange, "flanges"), (2.0 * bars, "rows of bars"), key=lambda one: one[0])
    if notch is not None and notch < takes - SLACK:
        return f"a notch {notch:.3f} mm wide, its two {what} take {takes:g} mm", notch
    return None


def _judge_nesting(outlines: Sequence[Outline], place: str) -> list[Finding]:
    """No outline reaches past the one above it: everything drops in from above."""
    findings = []
    for number, (below, above) in enumerate(pairwise(outlines), 1):
        past = max(min(overreach(one, other) for other in largest(above)) for one in largest(below))
        if past > SLACK:
            text = f"reaches {past:.3f} mm past the outline of the tier above"
            findings.append(Finding("outline-nesting", f"{place}, tier {number}", text, past))
    return findings


def _judge_extent(box: ClaimedBox, place: str) -> list[Finding]:
    """The uppermost outline, the widest, reaches just as far as the outside told."""
    found = extent(box.outlines[-1])
    told = Rectangle(box.outside.low[:2], box.outside.high[:2])
    off = max(abs(overreach(found, told)), abs(overreach(told, found)))
    if off <= SLACK:
        return []
    return [Finding("outside", place, f"the uppermost outline and outside told differ by {off:.3f} mm", off)]


def judge_shape(box: ClaimedBox, rules: BoxRules, place: str) -> list[Finding]:
    """The corners told are those of the outlines, and stepped boxes stand only where they may."""
    outlines = box.outlines
    found = sum(len(above) for below, above in pairwise(((), *outlines)) if above != below) or 4
    text = ""
    if box.corners != found:
        text = f"{box.corners} corners told, {found} found"
    elif found > 4 and rules.shape == "rectangular":
        text = f"{found} corners, only rectangular boxes are allowed"
    return [Finding("shape", place, text, float(box.corners))] if text else []
