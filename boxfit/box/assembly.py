"""How the modules of a box go in: straight down one by one, lowest tier first, each connected at once.

When a tier is full its packers and hold-downs go in, then the next tier's shelf; the lid comes last. Within
a tier that order is taken in which every module is connected before a neighbour closes its terminals off.
Taking a module out only ever gives the others more room, so an order is found from its end, the module that
has room with all others in coming last: where this finds none, there is none.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from math import floor
from typing import Literal

from boxfit.bay import Bay, Block, BoxRules
from boxfit.box.assembly_hand import (
    HAND,
    SWING,
    OpenTier,
    TerminalFace,
    kept_clear,
    near,
    overhang,
    room_across,
    terminal_faces,
)
from boxfit.box.assembly_place import filling
from boxfit.box.hold_down import hold_downs
from boxfit.box.notes import cannot_build
from boxfit.box_details import ledge
from boxfit.box_shape import grown
from boxfit.car import Car
from boxfit.layout import Layout, PlacedBox, PlacedModule
from boxfit.module import Module

NOISE = 0.05
"""A tenth [mm] short is not called short."""


@dataclass(frozen=True)
class Step:
    """One thing done at a box, `number` from 1 for each box; the tray stands first, the lid is put on last.

    For a module: its number as in every list, its tier, how far below the rim its foot comes to stand
    (`drop`), its terminal faces, and how wide [mm] a round column is free at the worst of them when it is
    connected (`across`). `fits` is False where something is in its way down.
    """

    bay: str
    box: int
    number: int
    doing: Literal["tray", "module", "hold-down", "shelf", "lid"]
    tier: int = 0
    module: int = 0
    drop: float = 0.0
    faces: tuple[TerminalFace, ...] = ()
    across: float = SWING
    fits: bool = True
    notes: tuple[str, ...] = ()

    @property
    def lacks(self) -> float:
        """What a hand lacks at the terminals [mm]."""
        return max(HAND - self.across, 0.0) if self.across < HAND - NOISE else 0.0


@lru_cache(maxsize=4)  # the list, the summary and the page each tell of it
def assembly(car: Car, module: Module, layout: Layout) -> tuple[Step, ...]:
    """Every step of filling every box, in the order in which it is done."""
    bays = {bay.name: bay for bay in car.bays}
    steps: list[Step] = []
    first = 1
    for found in layout.bays:
        for place, box in enumerate(found.boxes, start=1):
            steps += _Filled(bays[found.name], place, box, module, first).steps()
            first += len(box.modules)
    return tuple(steps)


@dataclass(frozen=True)
class _Filled:
    """A box to fill; its modules are numbered from `first`."""

    bay: Bay
    place: int
    box: PlacedBox
    module: Module
    first: int

    def steps(self) -> Iterator[Step]:
        """The steps of this box."""
        notes = filling(self.bay, self.box, self.module)
        yield Step(self.bay.name, self.place, 1, "tray", notes=notes)
        number, first, held = 2, self.first, self._held()
        for tier_place, tier in enumerate(self.box.tiers):
            if tier_place:
                yield Step(self.bay.name, self.place, number, "shelf", tier_place + 1)
                number += 1
            for index, others in self._order(tier_place):
                yield self._lowered(number, tier_place, first + index, tier.modules[index], others)
                number += 1
            first += len(tier.modules)
            if tier_place in held:
                yield Step(self.bay.name, self.place, number, "hold-down", tier_place + 1)
                number += 1
        yield Step(self.bay.name, self.place, number, "lid")

    def _held(self) -> frozenset[int]:
        """Which tiers, from 0, have hold-downs; none where no box is built."""
        if cannot_build(self.bay.box, (self.box,)):
            return frozenset()
        found = hold_downs(self.bay.name, self.bay, self.box, self.module)
        levels = [strip.start[2] for strip in found.strips if strip.kind == "hold-down"]
        floors = [tier.stands_on for tier in self.box.tiers]
        return frozenset(sum(level > floor for floor in floors) - 1 for level in levels)

    def _open(self, tier: int, bodies: tuple[PlacedModule, ...]) -> OpenTier:
        sheet, rules = inner_sheet(self.bay.box, under_ledge=tier < len(self.box.tiers) - 1), self.bay.box
        inside = grown(self.box.outlines[tier], -sheet)
        return OpenTier(inside, self.box.high[2] - rules.rim_below_top, bodies)

    def _order(self, tier: int) -> list[tuple[int, tuple[PlacedModule, ...]]]:
        """The modules of a tier in order, each with those that are in before it."""
        modules = self.box.tiers[tier].modules
        alone = [self._across(module, self._open(tier, ())) for module in modules]
        left = dict.fromkeys(range(len(modules)), -1.0)
        found: list[tuple[int, tuple[PlacedModule, ...]]] = []
        while left:
            last = self._last(tier, left, alone)
            del left[last]
            found.append((last, tuple(modules[other] for other in left)))
            for other in left:
                if near(modules[other], modules[last]):
                    left[other] = -1.0
        return found[::-1]

    def _last(self, tier: int, left: dict[int, float], alone: list[float]) -> int:
        """Which of those left is connected last: one that then has room, the highest number first.

        Where none has, one that has no room even alone [mm], so that others come before it; else the one
        that lacks least. `left` holds the room of each [mm] as far as it is known, below 0 where not yet.
        """
        modules = self.box.tiers[tier].modules
        ways: list[tuple[bool, float, int]] = []
        for index in reversed(left):
            if left[index] < 0.0:
                others = tuple(modules[other] for other in left if other != index)
                left[index] = self._across(modules[index], self._open(tier, others))
            if left[index] >= HAND - NOISE:
                return index
            ways.append((alone[index] < HAND - NOISE, round(left[index], 3), index))
        return max(ways)[2]

    def _across(self, one: PlacedModule, tier: OpenTier) -> float:
        """The room at the worst of its terminal faces."""
        return min(room_across(one, face, tier) for face in terminal_faces(one.stance, self.module.room))

    def _lowered(
        self, number: int, tier: int, name: int, one: PlacedModule, others: tuple[PlacedModule, ...]
    ) -> Step:
        """A module of that number lowered while the others are in."""
        opened = self._open(tier, others)
        faces = terminal_faces(one.stance, self.module.room)
        across = self._across(one, opened)
        in_the_way = tuple(drop_notes(one, opened, self.module.spacing))
        step = Step(
            bay=self.bay.name,
            box=self.place,
            number=number,
            doing="module",
            tier=tier + 1,
            module=name,
            drop=opened.rim - one.low[2],
            faces=faces,
            across=across,
            fits=not in_the_way,
            notes=in_the_way,
        )
        if step.lacks == 0.0:
            return step
        return replace(step, notes=(*in_the_way, self._remedy(one, tier, opened)))

    def _remedy(self, one: PlacedModule, tier: int, opened: OpenTier) -> str:
        """Whether another order or links bolted on beforehand would do."""
        alone = self._across(one, self._open(tier, ()))
        order = (
            f"first in its tier it would have {alone:.0f} mm, but then others lack room: no order serves all"
            if alone >= HAND - NOISE
            else "no order gives more, as the walls leave too little"
        )
        worst = min(
            terminal_faces(one.stance, self.module.room), key=lambda face: room_across(one, face, opened)
        )
        kept = [solid for axis, sign, solid in kept_clear(one) if (axis, sign) == (worst.axis, worst.sign)]
        if kept and not any(_meets(kept[0], other) for other in opened.bodies):
            room = min(kept[0].high[worst.axis] - kept[0].low[worst.axis], room_across(one, worst, opened))
            return (
                f"{order}; links bolted on and covered before it is lowered would do, within the"
                f" {floor(room)} mm free there"
            )
        return (
            f"{order}; no room is kept clear there for links bolted on beforehand: bring its leads out above"
        )


def inner_sheet(rules: BoxRules, under_ledge: bool) -> float:
    """From a wall's outside to what a module passes on its way down [mm]: the liner, or a ledge above."""
    bar = ledge(rules) if under_ledge else None
    return rules.thickness + max(rules.liner, bar.width if bar else 0.0)


def drop_notes(one: PlacedModule, tier: OpenTier, spacing: float) -> Iterator[str]:
    """What a module meets when it is lowered straight down to its place, with the modules already in."""
    short = overhang(one, tier.inside)
    if short > NOISE:
        yield f"does not drop past wall, liner or ledge: {short:.1f} mm too long or too near"
    for other in tier.bodies:
        gap = max(max(one.low[k] - other.high[k], other.low[k] - one.high[k]) for k in (0, 1))
        if gap < spacing - NOISE:
            yield f"passes a module already in by {gap:.1f} mm, {spacing:.1f} mm asked"
        if any(_meets(solid, other) for _, _, solid in kept_clear(one)):
            yield "a module already in stands in the room it keeps clear"
        if any(_meets(solid, one) for _, _, solid in kept_clear(other)):
            yield "comes to stand in the room a module already in keeps clear"


def _meets(solid: Block, body: PlacedModule) -> bool:
    """Whether a body stands in a solid kept clear."""
    return all(body.low[k] < solid.high[k] - NOISE and body.high[k] > solid.low[k] + NOISE for k in range(3))
