"""The judge of hold-downs: from the files alone, every module is pressed down at two opposite edges.

Bars and brackets meet no module, enter the room above one only over the strips where it may be pressed, stay
between walls and under lid and shelf, and meet no other bar. What is not held must have been told.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from boxfit.bay import Bay, Vector
from boxfit.car import Car
from boxfit.judge.claim import Claim, ClaimedBox, ClaimedModule, read_claim
from boxfit.judge.distance import Cuboid, block_distance, inside_distance
from boxfit.judge.feet import leg_cuboids
from boxfit.judge.finding import SLACK, Finding
from boxfit.judge.fittings_claim import ToldBox, ToldStrip, read_fittings
from boxfit.judge.places import PLAN
from boxfit.judge.shape import bands
from boxfit.module import AXES, Module

MOST_PAD = 4.0
"""Rubber between bar and module is at most so thick [mm]: common practice, no source."""
LEAST_LENGTH = 0.8
LEAST_WIDTH = 0.4
"""A bar must lie over so much of a strip, along it and across it [-]: our own choice."""
KINDS = ("hold-down", "hold-down bracket")
TOLD = ("not held down", "no hold-downs")
"""Words by which what is not held is told."""
ENDS = {"length": ("front", "back"), "width": ("left", "right"), "height": ("bottom", "top")}
Strips = tuple[tuple[str, Cuboid], tuple[str, Cuboid]]


@dataclass(frozen=True)
class _Held:
    """A module: its body, its strips by the faces they lie at, and the room kept above it [mm]."""

    place: str
    body: Cuboid
    strips: Strips
    room: float

    @property
    def kept(self) -> Cuboid:
        """The room above it between the strips."""
        (_, first), (_, second) = self.strips
        axis = 0 if first.low[0] != second.low[0] else 1
        top = self.body.high[2]
        return self.body.spanning(axis, first.high[axis], second.low[axis]).spanning(2, top, top + self.room)


def judge_hold_downs(
    data: Mapping[str, object], car: Car, module: Module, layout: Mapping[str, object]
) -> tuple[Finding, ...]:
    """Everything that the hold-downs of a fittings.json break, beside the layout.json it belongs to."""
    claim, told = read_claim(layout), read_fittings(data)
    if not isinstance(claim, Claim):
        return claim
    if isinstance(told, tuple):
        return told
    bays = {bay.name: bay for bay in car.bays}
    laid = [(bay.name, number, box) for bay in claim.bays for number, box in enumerate(bay.boxes, start=1)]
    if [(name, number) for name, number, _ in laid] != [(one.bay, one.number) for one in told.boxes]:
        return (Finding("name", "boxes", "the boxes told are not those of the layout"),)
    return tuple(
        finding
        for (name, _, box), one in zip(laid, told.boxes, strict=True)
        for finding in _judge_box(bays[name], box, one, module)
    )


def _judge_box(bay: Bay, box: ClaimedBox, told: ToldBox, module: Module) -> Iterator[Finding]:
    """One box."""
    held = [_held(one, module, f"{told.name}, module {n}") for n, one in enumerate(box.modules, 1)]
    strips = [strip for strip in told.strips if strip.kind in KINDS]
    legs = [(strip, leg) for strip in strips for leg in leg_cuboids(strip)]
    for strip, leg in legs:
        place = f"{told.name}, {strip.name}"
        yield from _judge_met(place, leg, held)
        yield from _judge_inside(place, leg, bay, box)
    yield from _judge_apart(told.name, legs)
    if not any(word in note for note in told.notes for word in TOLD):
        bars = [leg for strip, leg in legs if strip.kind == "hold-down"]
        for one in held:
            yield from _judge_pressed(one, bars)


def _held(claimed: ClaimedModule, module: Module, place: str) -> _Held:
    """A module as laid out, and where on its upper face it may be pressed.

    Front and back end its length, left and right its width. Where the faces asked for do not stand upright,
    the first other pair that does is taken.
    """
    along = _axes(claimed)
    asked = "length" if "front" in module.held_at else "width"
    order = (asked, "length", "width", "height")
    axis, names = next((along[one], ENDS[one]) for one in order if along[one] < 2)
    body = Cuboid(claimed.low, claimed.high)
    low, high, top = body.low[axis], body.high[axis], body.high[2]
    wide = min(module.held_width, (high - low) / 2.0)
    level = body.spanning(2, top, top + MOST_PAD)
    strips = (
        (f"{names[0]} or {names[1]}", level.spanning(axis, low, low + wide)),
        (f"{names[0]} or {names[1]}", level.spanning(axis, high - wide, high)),
    )
    above = claimed.faces.z if claimed.faces else max(ENDS[claimed.up], key=lambda face: face == "top")
    return _Held(place, body, strips, getattr(module.room, above))


def _axes(claimed: ClaimedModule) -> dict[str, int]:
    """Along which axis each dimension of a module runs; by its size alone where no faces are told."""
    if claimed.faces:
        faces = (claimed.faces.x, claimed.faces.y, claimed.faces.z)
        return {name: axis for axis, face in enumerate(faces) for name, ends in ENDS.items() if face in ends}
    along: dict[str, int] = {claimed.up: 2, "length": AXES.index(claimed.length_along)}
    missing = [name for name in ENDS if name not in along]
    left = [axis for axis in range(3) if axis not in along.values()]
    return along | dict(zip(missing, left, strict=True))


def _judge_met(place: str, leg: Cuboid, held: Sequence[_Held]) -> Iterator[Finding]:
    """No leg stands in a module, nor in the room above it but over its strips."""
    for one in held:
        apart = block_distance(leg, one.body)
        if apart < -SLACK:
            yield Finding("hold-down-meets", place, f"{-apart:.3f} mm deep in {one.place}", apart)
        elif one.room > 0.0 and (apart := block_distance(leg, one.kept)) < -SLACK:
            text = f"{-apart:.3f} mm deep in the room above {one.place}, beyond its strips"
            yield Finding("hold-down-meets", place, text, apart)


def _judge_inside(place: str, leg: Cuboid, bay: Bay, box: ClaimedBox) -> Iterator[Finding]:
    """A leg lies between the walls of its tier, under lid and shelf, clear of the floor."""
    rules = bay.box
    middle = (leg.low[2] + leg.high[2]) / 2.0
    outlines = [band.outline for band in bands(box, rules) if band.low <= middle <= band.high]
    deep = max((inside_distance(leg.across(PLAN), outline) for outline in outlines), default=0.0)
    if deep < rules.thickness - SLACK:
        text = f"{deep:.3f} mm inside of the walls' outside, they are {rules.thickness:g} mm thick"
        yield Finding("hold-down-outside", place, text, deep)
    lids = [(box.outside.high[2] - rules.lid_thickness, box.outside.high[2] + leg.high[2])]
    shelves = [(tier.stands_on - rules.thickness, tier.stands_on) for tier in (box.tiers or ())[1:]]
    floor = [(box.outside.low[2] - leg.high[2], box.outside.low[2] + rules.thickness)]
    for low, high in (*lids, *shelves, *floor):
        into = min(leg.high[2] - low, high - leg.low[2])
        if into > SLACK:
            yield Finding("hold-down-outside", place, f"{into:.3f} mm into lid, shelf or floor", into)


def _judge_apart(name: str, legs: Sequence[tuple[ToldStrip, Cuboid]]) -> Iterator[Finding]:
    """Bars and brackets only touch each other."""
    for (one, leg), (other, other_leg) in combinations(legs, 2):
        apart = block_distance(leg, other_leg)
        if one.name != other.name and apart < -SLACK:
            place = f"{name}, {one.name} and {other.name}"
            yield Finding("hold-down-meets", place, f"{-apart:.3f} mm into each other", apart)


def _judge_pressed(one: _Held, bars: Sequence[Cuboid]) -> Iterator[Finding]:
    """At both edges a bar lies just above the module, over most of the strip."""
    for (faces, strip), edge in zip(one.strips, ("lower", "higher"), strict=True):
        if not any(_presses(bar, one.body, strip) for bar in bars):
            text = f"no hold-down over the strip at its {faces}, the {edge} of the two along its axis"
            yield Finding("hold-down-missing", one.place, text)


def _presses(bar: Cuboid, body: Cuboid, strip: Cuboid) -> bool:
    """Whether a bar's underside is a pad's thickness or less above a module, over enough of a strip."""
    gap = bar.low[2] - body.high[2]
    if not -SLACK <= gap <= MOST_PAD + SLACK:
        return False
    shares = [_share(bar.low, bar.high, strip, axis) for axis in (0, 1)]
    sides = [strip.high[axis] - strip.low[axis] for axis in (0, 1)]
    along, across = (0, 1) if sides[0] >= sides[1] else (1, 0)
    return shares[along] >= LEAST_LENGTH and shares[across] >= LEAST_WIDTH


def _share(low: Vector, high: Vector, strip: Cuboid, axis: int) -> float:
    """How much of a strip is covered along an axis [-]."""
    both = min(high[axis], strip.high[axis]) - max(low[axis], strip.low[axis])
    return max(both, 0.0) / (strip.high[axis] - strip.low[axis])
