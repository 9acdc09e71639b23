"""Cable housings: a collar folded from one strip and welded round a slot, with a screwed cover. [mm]

The collar's four legs all fold one way and meet in one seam; there is no room for a flange between a slot and
the flange of the box, so it is welded to the wall. The cover lies on tapped blocks in the collar's corners,
pressing foam on its rim, and comes off for the terminals. Sizes: common practice, no source.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from boxfit.bay import BoxRules, Vector
from boxfit.box.fitting import DIRECTIONS, Bought, BoughtKind, Fastener, Looks, Strip, StripHole
from boxfit.box.outside.foot_shapes import OPPOSITE, PLUS
from boxfit.box.outside.place import Room, Wanted
from boxfit.box.outside.wall import spread
from boxfit.standards.bending import least_inside_radius
from boxfit.standards.cable_entry import BEND, SIGNAL_CABLE, STRIPPED_END, Gland, gland_for
from boxfit.standards.holes import clearance_hole

BAR_WIDTH, BAR_THICK, BAR_GAP = 20.0, 5.0, 7.0
"""Insulated copper bar 20 x 5 through a slot, and the air [mm] beside it: common practice, no source."""
BAR_MASS = 0.1
"""A bar with its terminal in the housing [kg]: common practice, no source."""
SLOT_HEIGHT = 18.0
"""Height [mm] of the slot that the bars go through."""
SLOT_DEEP = 20.0
"""What the bars need behind the wall [mm] before they turn down to a module's terminals."""
DEEP = 70.0
"""How far a housing stands out, and how high it is, at least [mm]: common practice, no source."""
BETWEEN = 2.0
"""Air between the nuts of two glands [mm]."""
PRESSED = 2.0
"""Foam of 3 mm under the cover once pressed [mm]."""
BLOCK, BLOCK_THICK, TAPPED, SCREW = 14.0, 8.0, 4.2, 5.0
"""Tapped blocks [mm]: square, so thick, drill for M5 (from memory)."""
SEAM = 0.5
"""Air in the collar's seam for the weld [mm]."""
BESIDE = 1.0
"""Air between a block and a bend [mm]."""
HOUSED = frozenset({"connector", "bars and glands"})
"""Kinds of bought parts that stand for a housing, their bodies its outside."""


@dataclass(frozen=True)
class Main:
    """What leaves through a housing: so many cables of a section [mm2], so far across [mm], where to."""

    count: int
    section: float
    across: float
    to: str

    @property
    def gland(self) -> Gland:
        """The gland of each."""
        return gland_for(self.across)

    @property
    def pitch(self) -> float:
        """From gland to gland [mm]."""
        return self.gland.across + BETWEEN

    def row(self, thick: float, radius: float) -> float:
        """How long [mm] outside a leg is that all glands go through.

        From either bend nuts and holes keep clear, holes by 2 t + r (common practice, no source).
        """
        end = radius + max(self.gland.across / 2.0, self.gland.hole / 2.0 + 2.0 * thick)
        return 2.0 * (thick + end) + (self.count - 1) * self.pitch

    def deep(self, thick: float) -> float:
        """How far a housing of so thick a sheet stands out [mm]: nuts of glands clear the cover's blocks."""
        return max(DEEP, self.gland.across + 2.0 * (thick + BLOCK_THICK))


def housing_sheet(rules: BoxRules) -> tuple[str, float, float]:
    """Material, thickness and inside radius [mm] of housings: the box's own sheet, folded if it is not.

    >>> from boxfit.standards.common_practice import USUAL_BOX
    >>> housing_sheet(USUAL_BOX)
    ('aluminium-5754', 2.5, 2.5)
    """
    if rules.process == "folded":
        return rules.material, rules.thickness, rules.bend_radius
    least = least_inside_radius(rules.material, rules.thickness)
    return rules.material, rules.thickness, least.radius if least else rules.thickness


def housings_wanted(main: Main, rules: BoxRules) -> Iterator[Wanted]:
    """Housings whose cables leave forwards or left along the wall, rearwards or right, or down.

    The face that the cables leave by is as long as their glands ask.
    """
    _, thick, radius = housing_sheet(rules)
    slot = main.count * (BAR_WIDTH + BAR_GAP) + BAR_GAP
    row = main.row(thick, radius)
    more = STRIPPED_END + (BEND + 1.0) * main.across
    top, out = SLOT_HEIGHT / 2.0 + thick, (0.0, main.deep(thick))
    narrow = slot + 2.0 * (thick + radius)
    kind: BoughtKind = "connector" if rules.process == "printed" else "bars and glands"
    for words in ("forwards or to the left", "rearwards or to the right", "downwards"):
        down = words == "downwards"
        along = spread(0.0, max(narrow, row) if down else narrow)
        up = (top - (DEEP if down else max(DEEP, row)), top)
        kept = {
            "rearwards or to the right": ((along[0] - more, along[1]), up),
            "forwards or to the left": ((along[0], along[1] + more), up),
            "downwards": (along, (up[0] - more, up[1])),
        }[words]
        size = f"{along[1] - along[0]:.0f} x {up[1] - up[0]:.0f} x {out[1]:g}"
        yield Wanted(
            kind,
            f"{'cable housing' if kind == 'connector' else kind} to {main.to}",
            _about(main, rules, size),
            _mass(main, rules),
            (slot, SLOT_HEIGHT),
            False,
            (slot, SLOT_HEIGHT, SLOT_DEEP),
            Room(along, up, out),
            (Room(*kept, out, f"its cables leave {words}"),),
        )


def _about(main: Main, rules: BoxRules, size: str) -> str:
    """What to order for it."""
    inside = (
        f"{main.count} insulated copper bars {BAR_WIDTH:g} x {BAR_THICK:g} through the slot to terminals in"
        f" it; {main.count} glands M{main.gland.thread:g} x 1.5 for orange cable {main.section:g} mm2,"
        f" {main.across:g} mm across"
    )
    if rules.process == "printed":
        return f"cable housing {size} of plastic, bought, over a slot with {inside}"
    return f"for the cable housing {size}: {inside}; foam strip 8 x 3 on the inside of its cover"


def _mass(main: Main, rules: BoxRules) -> float:
    """Of what is bought [kg]; half a kilogram more where the housing is bought as well."""
    bought = 0.5 if rules.process == "printed" else 0.0
    return bought + main.count * (BAR_MASS + main.gland.mass)


@dataclass(frozen=True)
class Made:
    """A housing: what is bought for it, its strips and its screws."""

    bought: Bought
    strips: tuple[Strip, ...]
    fasteners: tuple[Fastener, ...]


def made_housing(name: str, rules: BoxRules, bought: Bought, main: Main, signal: bool) -> Made:
    """A housing in its place; with `signal` the cable of the monitoring leaves through it as well."""
    if signal:
        gland = gland_for(SIGNAL_CABLE)
        about = f"{bought.about}; one gland M{gland.thread:g} x 1.5 for the cable of the monitoring"
        bought = replace(bought, about=about, mass=round(bought.mass + gland.mass, 6))
    if rules.process == "printed":
        return Made(bought, (), ())
    frame = _Frame(bought, housing_sheet(rules))
    strips = (_collar(name, frame, main, signal), _cover(name, frame), *_blocks(name, frame))
    screws = Fastener("screw with sealing washer", f"M{SCREW:g} x 12", 4, f"{name}, cover")
    return Made(bought, strips, (screws,))


@dataclass(frozen=True)
class _Frame:
    """Where a housing stands: places count out from the wall, along it and up, from its body's low corner."""

    bought: Bought
    sheet: tuple[str, float, float]

    @property
    def axis(self) -> int:
        """The axis its wall looks along."""
        return 0 if DIRECTIONS[self.bought.looks][0] else 1

    @property
    def size(self) -> tuple[float, float, float]:
        """Out, along and up [mm]."""
        low, high = self.bought.body.low, self.bought.body.high
        axis = self.axis
        return (high[axis] - low[axis], high[1 - axis] - low[1 - axis], high[2] - low[2])

    def at(self, out: float, along: float, up: float) -> Vector:
        """A place in the car."""
        body, axis = self.bought.body, self.axis
        outwards = DIRECTIONS[self.bought.looks][axis] > 0.0
        across = body.low[axis] + out if outwards else body.high[axis] - out
        beside = body.low[1 - axis] + along
        return (across, beside, body.low[2] + up) if axis == 0 else (beside, across, body.low[2] + up)

    @property
    def leaves(self) -> int:
        """The leg of the collar that the cables leave by: rearwards or right, down, forwards or left."""
        body, keeps, beside = self.bought.body, self.bought.keeps, 1 - self.axis
        over = (
            body.low[beside] - keeps.low[beside],
            body.low[2] - keeps.low[2],
            keeps.high[beside] - body.high[beside],
        )
        return max(range(3), key=lambda leg: over[leg])


def _collar(name: str, frame: _Frame, main: Main, signal: bool) -> Strip:
    """Down one side, along the bottom, up the other side and back over the slot."""
    (deep, wide, high), (material, thick, radius) = frame.size, frame.sheet
    plus = PLUS[1 - frame.axis]
    minus = OPPOSITE[plus]
    legs: tuple[tuple[Looks, float], ...] = (
        ("down", high),
        (plus, wide),
        ("up", high),
        (minus, wide - thick - SEAM),
    )
    leg = frame.leaves
    first = legs[leg][1] / 2.0 - (main.count - 1) * main.pitch / 2.0
    holes = [
        StripHole(leg, deep / 2.0, first + number * main.pitch, main.gland.hole)
        for number in range(main.count)
    ]
    if signal:
        other = 0 if leg == 1 else 1
        holes.append(StripHole(other, deep / 2.0, legs[other][1] / 2.0, gland_for(SIGNAL_CABLE).hole))
    notes = (
        "folded all one way to a frame, closed by one seam at its upper corner, ground flush on the rim",
        "welded to the wall round the slot, all round and tight, from outside",
    )
    return Strip(
        "cable housing",
        name,
        material,
        thick,
        radius,
        frame.at(0.0, 0.0, high),
        frame.bought.looks,
        deep - thick - PRESSED,
        legs,
        plus,
        tuple(holes),
        notes,
    )


def _cover(name: str, frame: _Frame) -> Strip:
    """The plate before it."""
    (deep, wide, high), (material, thick, _) = frame.size, frame.sheet
    holes = tuple(
        StripHole(0, along + BLOCK / 2.0, up + BLOCK / 2.0, clearance_hole(SCREW))
        for along, up in _corners(frame)
    )
    notes = ("foam strip 8 x 3 on its inner face where the rim presses, closed all round; comes off",)
    return Strip(
        "housing cover",
        f"{name} cover",
        material,
        thick,
        0.0,
        frame.at(deep - thick, 0.0, 0.0),
        PLUS[1 - frame.axis],
        wide,
        (("up", high),),
        frame.bought.looks,
        holes,
        notes,
    )


def _corners(frame: _Frame) -> tuple[tuple[float, float], ...]:
    """The low corners of the blocks, along and up."""
    (_, wide, high), (_, thick, radius) = frame.size, frame.sheet
    inset = thick + radius + BESIDE
    return tuple(
        (along, up) for up in (thick, high - thick - BLOCK) for along in (inset, wide - inset - BLOCK)
    )


def _blocks(name: str, frame: _Frame) -> Iterator[Strip]:
    """Tapped blocks on the lower and the upper leg, proud of the rim by what the foam keeps."""
    deep, (material, thick, _) = frame.size[0], frame.sheet
    for number, (along, up) in enumerate(_corners(frame), start=1):
        yield Strip(
            "housing block",
            f"{name} block {number}",
            material,
            BLOCK_THICK,
            0.0,
            frame.at(deep - thick - BLOCK_THICK, along, up),
            PLUS[1 - frame.axis],
            BLOCK,
            (("up", BLOCK),),
            frame.bought.looks,
            (StripHole(0, BLOCK / 2.0, BLOCK / 2.0, TAPPED),),
            ("flat bar, tapped M5 right through; welded inside the collar on two sides",),
            bar=True,
        )
