"""The hold-downs of a built box as figures, and which modules none of them holds. Lengths [mm]."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from boxfit.bay import Block
from boxfit.box.built import BuiltBox
from boxfit.box.fitting import DIRECTIONS, Strip
from boxfit.box.hold_down_section import PRESSED
from boxfit.box.parts import Tray
from boxfit.box.strip_legs import strip_blocks
from boxfit.layout import PlacedModule
from boxfit.module import Module
from boxfit.retention.hold_down import HoldDown, Tapped
from boxfit.standards.strengths import STRENGTHS

CLOSE = 0.01
FILLET = 0.8
"""Share of a bend's radius that does not count to an arm: EN 1993-1-8 figure 6.8, from memory."""


@dataclass(frozen=True)
class Holding:
    """The hold-downs of a box with what each holds, and the modules that none holds."""

    bars: tuple[HoldDown, ...]
    loose: tuple[PlacedModule, ...]


@dataclass(frozen=True)
class _Group:
    """A bar with the brackets that follow it in the list, up to the next bar."""

    bar: Strip
    blocks: tuple[Strip, ...]

    @property
    def flat(self) -> Block:
        """The lying leg, the second of an angle or channel."""
        return strip_blocks(self.bar)[1]


def holding(built: BuiltBox, module: Module) -> Holding:
    """Each module's mass goes to the bars that lie over it, in equal parts."""
    groups = tuple(_groups(built.parts.fittings.strips))
    over = {placed: [group for group in groups if _presses(group, placed)] for placed in built.box.modules}
    bars = []
    for group in groups:
        held = [placed for placed, found in over.items() if group in found]
        if held:
            mass = sum(module.mass / len(over[placed]) for placed in held)
            bars.append(_hold_down(built, group, held, mass))
    return Holding(tuple(bars), tuple(placed for placed, found in over.items() if not found))


def _groups(strips: tuple[Strip, ...]) -> Iterator[_Group]:
    bar: Strip | None = None
    blocks: list[Strip] = []
    for strip in strips:
        if strip.kind == "hold-down":
            if bar:
                yield _Group(bar, tuple(blocks))
            bar, blocks = strip, []
        elif strip.kind == "hold-down bracket" and strip.bar:
            blocks.append(strip)
    if bar:
        yield _Group(bar, tuple(blocks))


def _presses(group: _Group, placed: PlacedModule) -> bool:
    """Whether the lying leg is just above a module, over some of it."""
    flat = group.flat
    level = abs(flat.low[2] - placed.high[2] - PRESSED) < CLOSE
    return level and all(flat.low[k] < placed.high[k] and placed.low[k] < flat.high[k] for k in (0, 1))


def _hold_down(built: BuiltBox, group: _Group, held: list[PlacedModule], mass: float) -> HoldDown:
    bar, flat, tray = group.bar, group.flat, built.parts.tray
    along = next(k for k in (0, 1) if DIRECTIONS[bar.along][k])
    across, uprights, wide = 1 - along, len(bar.legs) - 1, bar.legs[1][1]
    pressed = [
        min(one.high[across], flat.high[across]) + max(one.low[across], flat.low[across]) for one in held
    ]
    # from the outside of the upright leg to the middle of what is pressed; half way between two legs
    out = wide / 2.0 if uprights == 2 else max(abs(middle / 2.0 - bar.start[across]) for middle in pressed)
    walled = bool(bar.holes)
    return HoldDown(
        name=bar.name,
        mass=mass,
        flat=wide,
        upright=bar.legs[0][1],
        uprights=uprights,
        thickness=bar.thickness,
        metal=STRENGTHS[bar.material],
        span=_span(bar),
        over=min(sum(one.high[along] - one.low[along] for one in held), bar.width),
        arm=max(out - bar.thickness - FILLET * bar.radius, bar.thickness),
        screws=len(group.blocks),
        lever=bar.holes[0].across if walled else bar.legs[0][1] / 2.0,
        out=out if walled else bar.thickness,
        tapped=_tapped(group.blocks[0], tray),
        end_plates=not walled,
    )


def _span(bar: Strip) -> float:
    """The longest stretch between screws; one beyond the last bends the bar as a span of twice its length."""
    at = sorted(hole.along for hole in bar.holes)
    if not at:
        return bar.width
    return max(*(high - low for low, high in pairwise(at)), 2.0 * at[0], 2.0 * (bar.width - at[-1]))


def _tapped(block: Strip, tray: Tray) -> Tapped:
    return Tapped(
        thickness=block.thickness,
        length=block.width,
        height=block.legs[0][1],
        metal=STRENGTHS[block.material],
        wall=tray.thickness,
        wall_metal=STRENGTHS[tray.material],
    )
