"""How modules fit the box as it is really made: the play of each row as drawn, usually, and at the worst.

A row is what stands one behind the other along x or y on one line across a tier, between the two walls that
the line meets; upwards it is the tallest module of a tier with the room at its top. Its play is what is free
once modules stand together, their spacing kept: metal and liner only, the room at a module's sides is not
counted. The walls are lined, and at the floor a bend or a weld's bead may reach further in than the liner.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil, sqrt
from typing import Literal

from boxfit.bay import BoxRules
from boxfit.box.built import BuiltBox
from boxfit.box.fit_ends import LEDGE, End, ends_of, ledge_ends, lined
from boxfit.box.fit_sums import Contribution, ceiling_sums, wall_sums
from boxfit.box_shape import grown
from boxfit.layout import PlacedModule, Tier
from boxfit.module import Module
from boxfit.surface import Outline

Direction = Literal["x", "y", "up"]
ALONG: tuple[Direction, Direction] = ("x", "y")
APART = 1e-3
"""Lines nearer together than this [mm] are one."""
STEP = 0.1
"""A remedy is rounded up to this [mm]."""


@dataclass(frozen=True)
class RowFit:
    """One row of a tier (from 1) and its play [mm].

    `clear` [mm] is from one of the two `ends` to the other, `needs` [mm] is what the row takes; `sums` are
    what may be out. The row is told once where it stands, and once more where its last module is lowered past
    the ledge of the shelf above, straight down.
    """

    tier: int
    direction: Direction
    modules: tuple[PlacedModule, ...]
    ends: tuple[str, str]
    clear: float
    needs: float
    sums: tuple[Contribution, ...]

    @property
    def play(self) -> float:
        """What is free as drawn [mm]."""
        return self.clear - self.needs

    @property
    def worst(self) -> float:
        """What is left where everything is as far out as it may be, and all against the row [mm]."""
        return self.play - sum(one.count * one.each for one in self.sums)

    @property
    def typical(self) -> float:
        """What is left by the root of the sum of squares [mm]: hardly one row of 1000 keeps less.

        For errors that know nothing of one another, each beyond what it may be in 3 of 1000 cases (common
        practice, no source).
        """
        return self.play - sqrt(sum(one.count * one.each**2 for one in self.sums))

    @property
    def jams(self) -> bool:
        """Whether it cannot be put in where all is at its worst."""
        return self.worst < -1e-9

    @property
    def past_ledge(self) -> bool:
        """Whether it is told for the way past the ledge."""
        return LEDGE in self.ends


def inside_fit(built: BuiltBox, module: Module) -> tuple[RowFit, ...]:
    """Every row of a box: by tier, then along x, along y and up, the tightest first.

    Tolerances are those of the bay's rules. What a gasket that is pressed less adds above is not counted.
    """
    found: list[RowFit] = []
    for number, (tier, outline) in enumerate(zip(built.box.tiers, built.box.outlines, strict=True)):
        inside = grown(outline, -built.bay.box.thickness)
        for axis in (0, 1):
            rows = [
                fit
                for modules, chord in rows_along(tier, inside, axis)
                for fit in _fits(_Row(built, module, number, axis, modules, chord))
            ]
            found += sorted(rows, key=lambda fit: (fit.worst, fit.modules[0].low))
        found.append(_upwards(built, number))
    return tuple(found)


def remedy(fit: RowFit, rules: BoxRules) -> str:
    """What would let a row in at the worst, as the key to write; empty where it goes in.

    Rounded up to a tenth [mm]; a wider gap is shared by both ends.
    """
    if not fit.jams:
        return ""
    if fit.direction == "up":
        return f"box.headroom = {_up(rules.headroom - fit.worst):g} would do"
    if fit.past_ledge:
        ledges = fit.ends.count(LEDGE)
        return f"bars of the ledge {_up(-fit.worst / ledges):g} mm narrower, or tipping it in, would do"
    return f"box.gap = {_up(rules.gap - fit.worst / 2.0):g} would do"


def _up(value: float) -> float:
    return round(ceil(value / STEP - 1e-6) * STEP, 6)


def rows_along(
    tier: Tier, inside: Outline, axis: int
) -> list[tuple[tuple[PlacedModule, ...], tuple[float, float]]]:
    """The rows of a tier along x (axis 0) or y (1), each with the chord [mm] between the walls."""
    across = 1 - axis
    marks = [edge for one in tier.modules for edge in (one.low[across], one.high[across])]
    marks = sorted({*marks, *(corner[across] for corner in inside)})
    lines = [(low + high) / 2.0 for low, high in pairwise(marks) if high - low > APART]
    found: dict[tuple[tuple[PlacedModule, ...], tuple[float, float]], None] = {}
    for line in lines:
        met = sorted(
            (one for one in tier.modules if one.low[across] < line < one.high[across]),
            key=lambda one: one.low[axis],
        )
        for start, end in _chords(inside, axis, line):
            row = tuple(one for one in met if start < (one.low[axis] + one.high[axis]) / 2.0 < end)
            if row:
                found.setdefault((row, (start, end)))
    return list(found)


def _chords(outline: Outline, axis: int, line: float) -> list[tuple[float, float]]:
    """From where to where [mm] along an axis the outline encloses a line across it."""
    across = 1 - axis
    sides = zip(outline, outline[1:] + outline[:1], strict=True)
    met = sorted(
        one[axis]
        for one, other in sides
        if min(one[across], other[across]) < line < max(one[across], other[across])
    )
    return list(zip(met[::2], met[1::2], strict=True))


@dataclass(frozen=True)
class _Row:
    """A row of the tier `number` from 0 along x or y, and the chord [mm] between the walls."""

    built: BuiltBox
    module: Module
    number: int
    axis: int
    modules: tuple[PlacedModule, ...]
    chord: tuple[float, float]


def _fits(row: _Row) -> list[RowFit]:
    """The row where it stands, and past the ledge above it where there is one."""
    ends = ends_of(row.built, row.number, row.axis, row.modules)
    past = ledge_ends(row.built, row.number, ends, len(row.modules))
    return [_fit(row, ends)] + ([_fit(row, past)] if past else [])


def _fit(row: _Row, ends: tuple[End, End]) -> RowFit:
    """The row between two ends."""
    bodies = sum(one.stance.size[row.axis] for one in row.modules)
    height = max(one.high[2] for one in row.modules) - _foot(row.built, row.number)
    return RowFit(
        tier=row.number + 1,
        direction=ALONG[row.axis],
        modules=row.modules,
        ends=(ends[0].what, ends[1].what),
        clear=row.chord[1] - row.chord[0] - ends[0].takes - ends[1].takes,
        needs=bodies + row.module.spacing * (len(row.modules) - 1),
        sums=wall_sums(row.built, len(row.modules), ends, height),
    )


def _foot(built: BuiltBox, number: int) -> float:
    """The level [mm] at which the walls round a tier begin, on the top of their floor."""
    outlines = built.box.outlines
    first = outlines.index(outlines[number])
    return built.box.tiers[first].stands_on if first else built.box.low[2] + built.bay.box.thickness


def _upwards(built: BuiltBox, number: int) -> RowFit:
    """A tier from what it stands on to shelf or lid, by the module that needs most."""
    tiers, rules = built.box.tiers, built.bay.box
    tier, is_top = tiers[number], number == len(tiers) - 1
    ceiling = built.box.high[2] - rules.lid_thickness
    if not is_top:
        ceiling = tiers[number + 1].stands_on - rules.thickness

    def needed(one: PlacedModule) -> float:
        return one.stance.size[2] + one.stance.room_high[2]

    tallest = max(tier.modules, key=needed)
    return RowFit(
        tier=number + 1,
        direction="up",
        modules=(tallest,),
        ends=(lined(rules).what if number == 0 else "shelf", "lid" if is_top else "shelf"),
        clear=ceiling - tier.stands_on,
        needs=needed(tallest),
        sums=ceiling_sums(built, number),
    )
