"""One hold-down each: an angle along a wall, or a bar from wall to wall, with the tapped blocks it goes on.

A bar along a wall is an angle whose upright leg is screwed to blocks welded to that wall. A bar that no wall
runs along goes from wall to wall, a plate welded to each of its ends. Blocks reach no further from the walls
than the modules' gap, so that everything is lowered past them.
"""

from dataclasses import dataclass, replace
from math import ceil

from boxfit.bay import Block
from boxfit.box.fitting import Looks, Strip, StripHole
from boxfit.box.hold_down_place import TOUCH, Place, Span, placed
from boxfit.box.hold_down_section import (
    BLOCK,
    HEAD,
    HOLE,
    HOLE_TO_EDGE,
    PRESSED,
    TALLEST,
    WASHER_HALF,
    Section,
)
from boxfit.box.hold_down_strips import block, folded, looks, plate
from boxfit.box.hold_lines import Line
from boxfit.box.strip_legs import strip_blocks
from boxfit.box_details import FIT

PITCH = 200.0
"""Screws along a wall are at most this far [mm] apart."""
FROM_END = 20.0
SHORT = 55.0
"""A bar shorter than this [mm] has room for one block only."""
BESIDE_WALL = 10.0
"""A wall further away than this [mm], beyond liner and gap, has no bar along it."""
AIR = 0.5
LEAST_FLAT = 3.0
"""So much of a bar [mm] lies flat on the modules at least, beside its bend."""
ASIDE = (0.0, 4.0, -4.0, 8.0, -8.0, 12.0, -12.0, 16.0, -16.0, 20.0, -20.0)
"""How far [mm] a block may be moved aside, tried in this order."""
FROM_BLOCK_END = 8.0
"""A screw stays this far [mm] from the ends of its block."""


@dataclass(frozen=True)
class Bar:
    """A bar with its brackets; where pads lie across [mm]; how many screws, and the air [mm] at them."""

    line: Line
    strips: tuple[Strip, ...]
    pads: Span
    screws: int
    gap: float

    @property
    def blocks(self) -> tuple[Block, ...]:
        """What all of it fills [mm]."""
        return tuple(block for strip in self.strips for block in strip_blocks(strip))


@dataclass(frozen=True)
class Maker:
    """What all bars of a tier share; `reach` [mm] is from wall to module where nothing else is between.

    `spanning` is the section of bars from wall to wall, `section` that of angles along one.
    """

    section: Section
    spanning: Section
    place: Place
    reach: float

    def bar(self, line: Line) -> Bar | None:
        """The bar for a line; None where there is no room for one."""
        bottom, between = line.holds[0].top + PRESSED, replace(self, section=self.spanning)
        heights, spanned = self._heights(bottom), between._heights(bottom)
        found = self._along_wall(line, *heights) if heights else None
        if found is None and spanned:
            found = between._from_wall_to_wall(line, *spanned)
        if found is None or not all(self.place.is_free(block) for block in found.blocks):
            return None
        return found

    def lacking(self, line: Line) -> float:
        """How much height is missing for a bar [mm], 0 where none is."""
        bottom, section = line.holds[0].top + PRESSED, self.section
        bar = bottom + section.least_height - self.place.ceiling
        block = bottom + section.thickness + section.radius + WASHER_HALF + BLOCK[2] - self.place.walls_end
        return max(bar, block, 0.0)

    def _heights(self, bottom: float) -> tuple[float, float, float] | None:
        """Underside and height of a bar, and the level of its screws [mm]."""
        section = self.section
        height = min(self.place.ceiling - bottom, TALLEST)
        least = bottom + section.thickness + section.radius + WASHER_HALF
        screw = min(bottom + section.screw_up(height), self.place.walls_end - BLOCK[2])
        enough = height >= section.least_height - 1e-6 and screw >= least - 1e-6
        return (bottom, height, screw) if enough else None

    def _along_wall(self, line: Line, bottom: float, height: float, screw: float) -> Bar | None:
        """An angle, its upright leg at the wall."""
        if len(line.sides) > 1:
            return None
        (side,) = line.sides
        across, edge = line.holds[0].across, line.low if side < 0 else line.high
        span = (min(hold.start for hold in line.holds), max(hold.stop for hold in line.holds))
        wall = self.place.wall(across, side, edge, span)
        if (
            wall is None
            or not self.section.block + FIT <= abs(edge - wall) + 1e-6 <= self.reach + BESIDE_WALL
        ):
            return None
        outer = wall - side * self.section.block
        inner = line.high if side < 0 else line.low
        alongs = self._alongs(across, (wall, outer), span, screw)
        flat = outer - side * (self.section.thickness + self.section.radius)
        if not alongs or (flat - inner) * side < LEAST_FLAT:
            return None
        bar = folded(
            self.section,
            across,
            (outer, span[0], bottom + height),
            span[1] - span[0],
            (("down", height), (looks(across, -side), abs(inner - outer))),
            tuple(StripHole(0, along - span[0], bottom + height - screw, HOLE) for along in alongs),
        )
        blocks = (block(self.section, (across, -side, wall), along, (along, screw)) for along in alongs)
        return Bar(line, (bar, *blocks), (min(flat, inner), max(flat, inner)), len(alongs), 0.0)

    def _alongs(self, across: int, walled: Span, span: Span, screw: float) -> tuple[float, ...]:
        """Where blocks go along a wall [mm], moved aside for what is in the way; none if one has no room."""
        found: list[float] = []
        half = BLOCK[0] / 2.0
        for along in spread(span):
            tried = (along + shift for shift in ASIDE)
            ends = (found[-1] + half if found else span[0], span[1])
            at = next(
                (
                    at
                    for at in tried
                    if ends[0] - TOUCH <= at - half
                    and at + half <= ends[1] + TOUCH
                    and self._has_room(across, walled, at, screw)
                ),
                None,
            )
            if at is None:
                return ()
            found.append(at)
        return tuple(found)

    def _has_room(self, across: int, walled: Span, along: float, screw: float) -> bool:
        """Whether a block goes there; `walled` is where its wall stands and how far it reaches [mm]."""
        length, below, above = BLOCK
        low = (min(walled), along - length / 2.0, screw - below)
        high = (max(walled), along + length / 2.0, screw + above)
        return self.place.is_free(Block(placed(across, low), placed(across, high)))

    def _from_wall_to_wall(self, line: Line, bottom: float, height: float, screw: float) -> Bar | None:
        """An angle, or a channel over two rows, with a plate at each end."""
        across, section = line.holds[0].across, self.section
        low, high, sides = self._across(line)
        upright = section.thickness if -1 in sides else 0.0
        other = section.thickness if 1 in sides else 0.0
        middle = (low + upright + high - other) / 2.0
        walls = self._end_walls(line, (low, high), middle, screw)
        if walls is None:
            return None
        (first, first_at), (last, last_at) = walls
        off = section.block + FIT
        start, end = first + off + section.thickness, last - off - section.thickness
        if end - start < BLOCK[0]:
            return None
        legs: tuple[tuple[Looks, float], ...] = (
            ("down", height),
            (looks(across, 1 if upright else -1), high - low),
        )
        if upright and other:
            legs = (*legs, ("up", height))
        bar = folded(
            self.section, across, (low if upright else high, start, bottom + height), end - start, legs, ()
        )
        ends = ((1, first, first_at), (-1, last, last_at))
        plates = (
            plate(
                section,
                (across, sign),
                (low, wall + sign * off, bottom),
                (high - low, height),
                (middle, screw),
            )
            for sign, wall, _ in ends
        )
        blocks = (
            block(self.section, (1 - across, sign, wall), at, (middle, screw)) for sign, wall, at in ends
        )
        bend = section.thickness + section.radius
        pads = (low + (bend if upright else 0.0), high - (bend if other else 0.0))
        return Bar(line, (bar, *plates, *blocks), pads, 2, FIT)

    def _across(self, line: Line) -> tuple[float, float, frozenset[int]]:
        """From where to where a bar from wall to wall reaches, and at which edges it stands up.

        An angle is made wide enough for the screw's head and the hole at its ends, past the modules' edge.
        """
        thick, bend = self.section.thickness, self.section.thickness + self.section.radius
        channel = max(2.0 * (thick + AIR) + HEAD, 2.0 * bend + LEAST_FLAT)
        if len(line.sides) == 2 and line.high - line.low >= channel:
            return line.low, line.high, line.sides
        side = min(line.sides)
        at_ends = thick + HOLE + 2.0 * HOLE_TO_EDGE * thick
        more = max(max(thick + AIR + HEAD, bend + LEAST_FLAT, at_ends) - (line.high - line.low), 0.0)
        if side < 0:
            return line.low - more, line.high, frozenset((side,))
        return line.low, line.high + more, frozenset((side,))

    def _end_walls(
        self, line: Line, bar: Span, middle: float, screw: float
    ) -> list[tuple[float, float]] | None:
        """The walls at both ends and where a block comes on each; None where one is not straight."""
        along, half = 1 - line.holds[0].across, BLOCK[0] / 2.0
        starts = (min(hold.start for hold in line.holds), max(hold.stop for hold in line.holds))
        found: list[tuple[float, float]] = []
        for side, start in zip((-1, 1), starts, strict=True):
            for at in (middle + shift for shift in ASIDE if abs(shift) <= half - FROM_BLOCK_END):
                wall = self.place.wall(along, side, start, (min(bar[0], at - half), max(bar[1], at + half)))
                walled = (wall or 0.0, (wall or 0.0) - side * self.section.block)
                if wall is not None and self._has_room(along, walled, at, screw):
                    found.append((wall, at))
                    break
        return found if len(found) == 2 else None


def spread(span: Span) -> tuple[float, ...]:
    """Where the screws of a bar along a wall go, evenly [mm].

    >>> spread((0.0, 440.0)), spread((0.0, 50.0))
    ((20.0, 220.0, 420.0), (25.0,))
    """
    start, end = span
    if end - start < SHORT:
        return ((start + end) / 2.0,)
    inset = min(FROM_END, (end - start - BLOCK[0]) / 2.0)
    spaces = max(1, ceil((end - start - 2.0 * inset) / PITCH - 1e-9))
    step = (end - start - 2.0 * inset) / spaces
    return tuple(start + inset + place * step for place in range(spaces + 1))
