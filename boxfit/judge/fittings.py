"""The judge of what is fixed outside of boxes: from the files alone, every fitting against all round it."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from boxfit.bay import Bay
from boxfit.car import Car
from boxfit.judge.around import around_fittings
from boxfit.judge.behind import judge_behind
from boxfit.judge.claim import Claim, ClaimedBox, Extent, read_claim
from boxfit.judge.cutouts import judge_cutouts
from boxfit.judge.distance import Cuboid, block_distance, shortfall
from boxfit.judge.feet import DOUBLER, judge_feet, leg_cuboids
from boxfit.judge.finding import SLACK, Finding
from boxfit.judge.fittings_claim import FACES, ToldBought, ToldBox, read_fittings
from boxfit.judge.housings import judge_housings
from boxfit.judge.lugs import KIND, judge_lugs
from boxfit.judge.places import SetBox, set_box
from boxfit.judge.stiffening import BAR, judge_bars
from boxfit.module import Module

HAND = (60.0, 150.0)
"""A hand with a spanner, across and along [mm]: common practice, no source."""


@dataclass(frozen=True)
class Judged:
    """A box as laid out and what is told of its fittings."""

    set: SetBox
    claimed: ClaimedBox
    told: ToldBox

    @property
    def middle(self) -> float:
        """The middle of its outside along x [mm]."""
        return (self.set.body.low[0] + self.set.body.high[0]) / 2.0


def judge_fittings(
    data: Mapping[str, object], car: Car, module: Module, layout: Mapping[str, object]
) -> tuple[Finding, ...]:
    """Everything a fittings.json breaks, beside the layout.json it belongs to; empty where it is clear."""
    claim, told = read_claim(layout), read_fittings(data)
    if not isinstance(claim, Claim):
        return claim
    if isinstance(told, tuple):
        return told
    boxes = _matched(claim, told.boxes, car)
    if isinstance(boxes, Finding):
        return (boxes,)
    findings: list[Finding] = []
    all_parts = [part for box in boxes for part in box.set.parts]
    for box in boxes:
        findings += judge_cutouts(box.set, box.claimed, box.told.cutouts)
        findings += judge_feet(box.set, box.told.strips)
        findings += judge_bars(box.set, box.told.strips, all_parts)
        findings += judge_lugs(box.set, box.claimed, box.told.strips, all_parts)
        findings += _judge_bought(box, all_parts)
        findings += judge_housings(box.told)
        findings += judge_behind(box.set, box.claimed, box.told, module)
        findings += _judge_rules(box, car)
    return (*findings, *_judge_together(boxes))


def _matched(claim: Claim, told: Sequence[ToldBox], car: Car) -> list[Judged] | Finding:
    """Every box of the layout with its fittings, in order."""
    bays = {bay.name: bay for bay in car.bays}
    laid = [(bay.name, number, box) for bay in claim.bays for number, box in enumerate(bay.boxes, start=1)]
    if [(name, number) for name, number, _ in laid] != [(one.bay, one.number) for one in told]:
        return Finding("name", "boxes", "the boxes told are not those of the layout")
    return [
        Judged(set_box(one.name, bays[name], box), box, one)
        for (name, _, box), one in zip(laid, told, strict=True)
    ]


def _cuboid(extent: Extent) -> Cuboid:
    return Cuboid(extent.low, extent.high)


def _judge_bought(box: Judged, all_parts: Sequence[Cuboid]) -> Iterator[Finding]:
    """Body and room of every bought part: clear of the bay and of every box."""
    bay = box.set.bay
    around = list(around_fittings(bay))
    for one in box.told.bought:
        place, body, keeps = f"{box.told.name}, {one.name}", _cuboid(one.body), _cuboid(one.keeps)
        for code, block in (("fitting-outside", body), ("fitting-room", keeps)):
            figures = [shortfall(block, obstacle.measure, obstacle.needed) for obstacle in around]
            short = [figure for figure in figures if figure is not None]
            if short:
                text = f"{min(short):.3f} mm from the bay, {bay.tolerance:g} mm needed"
                yield Finding(code, place, text, min(short))
                break
        for code, block in (("fitting-meets", body), ("fitting-room", keeps)):
            apart = min((block_distance(block, part) for part in all_parts), default=0.0)
            if apart < -SLACK:
                yield Finding(code, place, f"{-apart:.3f} mm deep in a box", apart)
                break


def _judge_together(boxes: Sequence[Judged]) -> Iterator[Finding]:
    """No fitting stands in another, nor in the room that another keeps."""
    things: list[tuple[str, Cuboid, Cuboid]] = []
    for box in boxes:
        for one in box.told.bought:
            things.append((f"{box.told.name}, {one.name}", _cuboid(one.body), _cuboid(one.keeps)))
        for strip in box.told.strips:
            if strip.kind in ("foot", KIND, DOUBLER, BAR):
                name = f"{box.told.name}, {strip.name}"
                things += [(name, leg, leg) for leg in leg_cuboids(strip)]
    for (name, body, keeps), (other, other_body, other_keeps) in combinations(things, 2):
        if name == other:
            continue
        pairs = (("fitting-meets", body, other_body), ("fitting-room", keeps, other_body))
        for code, first, second in (*pairs, ("fitting-room", body, other_keeps)):
            apart = block_distance(first, second)
            if apart < -SLACK:
                yield Finding(code, f"{name} and {other}", f"{-apart:.3f} mm into each other", apart)
                break


def _judge_rules(box: Judged, car: Car) -> Iterator[Finding]:
    """The breather away from the cabin, the drain at the lowest floor, the disconnect where a hand comes."""
    names = car.target.aboard if car.target else ()
    seats = [one.at[0] for one in car.carried if one.name in names] or [one.at[0] for one in car.carried]
    cabin = sum(seats) / len(seats) if seats else -car.wheelbase / 2.0
    for one in box.told.bought:
        place = f"{box.told.name}, {one.name}"
        axis, sign = FACES[one.looks]
        if one.kind == "breather" and axis == 0 and (cabin - box.middle) * sign > 0.0:
            yield Finding("breather-to-cabin", place, "looks towards the cabin", abs(cabin - box.middle))
        if one.kind == "drain" and (one.looks != "down" or abs(one.at[2] - box.set.body.low[2]) > SLACK):
            above = one.at[2] - box.set.body.low[2]
            yield Finding("drain-high", place, f"{above:.3f} mm above the lowest floor", above)
        if one.kind == "service disconnect":
            yield from _judge_reach(one, box.set.bay, place)


def _judge_reach(one: ToldBought, bay: Bay, place: str) -> Iterator[Finding]:
    """A hand's room leads from the disconnect to the bay's open side."""
    if bay.opening is None:
        return
    way = bay.opening.way
    axis, sign = FACES[way]
    if axis < 2:
        if one.looks != way:
            yield Finding("disconnect-reach", place, f"looks {one.looks}, the bay opens to the {way}")
        return
    end = bay.room.top if sign > 0 else bay.room.floor
    reached = (one.keeps.high if sign > 0 else one.keeps.low)[2]
    short = (end - reached) * sign - bay.tolerance
    across, along = sorted(one.keeps.high[k] - one.keeps.low[k] for k in (0, 1))
    narrow = max(HAND[0] - across, HAND[1] - along)
    if max(short, narrow) > SLACK:
        text = f"{max(short, narrow):.3f} mm are missing on a hand's way to it"
        yield Finding("disconnect-reach", place, text, max(short, narrow))
