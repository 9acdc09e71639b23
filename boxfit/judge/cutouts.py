"""Holes of a tray: each in one wall or floor, clear of bends, edges and of each other."""

from collections.abc import Iterator, Sequence
from itertools import combinations

from boxfit.bay import BoxRules
from boxfit.judge.claim import ClaimedBox
from boxfit.judge.distance import Rectangle, contains, sides, sides_distance
from boxfit.judge.finding import SLACK, Finding
from boxfit.judge.fittings_claim import FACES, ToldCutout
from boxfit.judge.outline import overreach
from boxfit.judge.places import SetBox
from boxfit.judge.shape import Band, bands


def judge_cutouts(box: SetBox, claimed: ClaimedBox, told: Sequence[ToldCutout]) -> list[Finding]:
    """Every hole lies in its wall or floor, 2 t + r off bends and 1.5 t off edges as the shop asks."""
    all_bands = bands(claimed, box.bay.box)
    findings: list[Finding] = []
    for one in told:
        place = f"{box.place}, {one.what}"
        found = (
            _in_floor(one, all_bands, box.bay.box) if one.looks == "down" else _in_wall(one, all_bands, box)
        )
        if found is None:
            findings.append(Finding("cutout-astray", place, f"lies in no face that looks {one.looks}"))
        elif found < -SLACK:
            text = f"{-found:.3f} mm too near to a bend, an edge or a corner"
            findings.append(Finding("fitting-in-bend", place, text, found))
    return findings + list(_apart(box, told))


def _half(one: ToldCutout) -> tuple[float, float]:
    """Half its extent along the face and up [mm]."""
    return (one.diameter / 2.0,) * 2 if one.diameter else (one.size[0] / 2.0, one.size[1] / 2.0)


def _off_bend(rules: BoxRules) -> float:
    """From the inside of the other leg to a hole's edge [mm]; beside a weld as from an edge: 1.5 t."""
    return 2.0 * rules.thickness + rules.bend_radius if rules.process == "folded" else 1.5 * rules.thickness


def _in_floor(one: ToldCutout, all_bands: Sequence[Band], rules: BoxRules) -> float | None:
    """How much more than needed a hole in the floor keeps from the walls [mm]; None where it is in none."""
    half = max(_half(one))
    x, y, level = one.at
    lowest = all_bands[0]
    if abs(level - lowest.low) > SLACK or not contains(lowest.outline, (x, y)):
        return None
    plan = Rectangle((x - half, y - half), (x + half, y + half))
    return sides_distance(plan, sides(lowest.outline)) - rules.thickness - _off_bend(rules)


def _in_wall(one: ToldCutout, all_bands: Sequence[Band], box: SetBox) -> float | None:
    """How much more than needed a hole in a wall keeps from its ends [mm]; None where it is in no wall."""
    axis, sign = FACES[one.looks]
    if axis == 2:
        return None
    rules, (wide, high) = box.bay.box, _half(one)
    along, up = one.at[1 - axis], one.at[2]
    for band in all_bands:
        for start, end in sides(band.outline):
            faces = 1 if (end[1 - axis] > start[1 - axis]) == (axis == 0) else -1
            level = abs(start[axis] - one.at[axis]) < SLACK and abs(end[axis] - one.at[axis]) < SLACK
            low, far = sorted((start[1 - axis], end[1 - axis]))
            if not (level and faces == sign and low < along < far and band.low < up < band.high):
                continue
            rim = band.high
            if band is all_bands[-1]:
                rim -= rules.rim_below_top
            below = rules.thickness + _off_bend(rules)
            flanged = rules.flange > 0.0 or band is not all_bands[-1]
            above = rules.thickness + _off_bend(rules) if flanged else 1.5 * rules.thickness
            corner = 2.5 * rules.thickness
            return min(
                along - wide - low - corner,
                far - along - wide - corner,
                up - high - band.low - below,
                rim - up - high - above,
            )
    return None


def _apart(box: SetBox, told: Sequence[ToldCutout]) -> Iterator[Finding]:
    """Holes of one face keep 1.5 t of metal between them."""
    needed = 1.5 * box.bay.box.thickness
    for one, other in combinations(told, 2):
        axis, _ = FACES[one.looks]
        if one.looks != other.looks or abs(one.at[axis] - other.at[axis]) > SLACK:
            continue
        flat = [k for k in range(3) if k != axis]
        plans = [
            Rectangle(
                (each.at[flat[0]] - half[0], each.at[flat[1]] - half[1]),
                (each.at[flat[0]] + half[0], each.at[flat[1]] + half[1]),
            )
            for each, half in ((one, _half(one)), (other, _half(other)))
        ]
        apart = _gap(*plans)
        if apart < needed - SLACK:
            text = f"{apart:.3f} mm of metal between them, {needed:g} mm needed"
            yield Finding("cutouts-near", f"{box.place}, {one.what} and {other.what}", text, apart)


def _gap(one: Rectangle, other: Rectangle) -> float:
    """The larger gap along the two axes [mm]."""
    gap = max(max(other.low[k] - one.high[k], one.low[k] - other.high[k]) for k in range(2))
    return gap if gap > 0.0 else -abs(overreach(one, other))
