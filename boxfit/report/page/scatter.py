"""Points in a field of two figures as a drawing of the page, with its words for those who do not see it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from math import ceil, dist, floor, log10

WIDE, HIGH = 760.0, 420.0
LEFT, RIGHT, TOP, BOTTOM = 64.0, 24.0, 34.0, 52.0
RADIUS = 6.0
BESIDE = ((12.0, 4.0), (-12.0, 4.0), (0.0, -11.0), (0.0, 19.0), (14.0, -8.0), (-14.0, 16.0))
"""Where a dot's number may stand from it."""
TICKS = 6
"""About so many ticks along an axis."""


@dataclass(frozen=True)
class Dot:
    """A point: its number in the table, its name, its place, and whether it is one of the best."""

    number: int
    name: str
    across: float
    up: float
    best: bool


@dataclass(frozen=True)
class Axis:
    """An axis with round ticks from `low` to `high`, drawn between two places of the paper."""

    words: str
    low: float
    high: float
    step: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Where a value lies on the paper."""
        return self.start + (value - self.low) / (self.high - self.low) * (self.end - self.start)

    @property
    def ticks(self) -> tuple[float, ...]:
        """The values at the ticks."""
        count = round((self.high - self.low) / self.step)
        return tuple(self.low + k * self.step for k in range(count + 1))


def axis(words: str, values: Sequence[float], start: float, end: float) -> Axis:
    """An axis that takes all values in, with round ticks.

    >>> axis("kg", [103.0, 188.0], 0.0, 100.0).ticks
    (100.0, 120.0, 140.0, 160.0, 180.0, 200.0)
    """
    low, high = min(values), max(values)
    step = _round_step(max(high - low, abs(high) * 0.05, 1e-3) / TICKS)
    first, last = floor(low / step) * step, ceil(high / step) * step
    return Axis(words, first, max(last, first + step), step, start, end)


def _round_step(least: float) -> float:
    """The smallest of 1, 2, 5 times a power of ten that is no less."""
    power = 10.0 ** floor(log10(least))
    return next(times * power for times in (1.0, 2.0, 5.0, 10.0) if times * power >= least * 0.999)


def scatter(dots: Sequence[Dot], across: str, up: str, title: str) -> str:
    """The drawing; empty where there is no dot."""
    if not dots:
        return ""
    x = axis(across, [dot.across for dot in dots], LEFT, WIDE - RIGHT)
    y = axis(up, [dot.up for dot in dots], HIGH - BOTTOM, TOP)
    told = "; ".join(_told(dot, across, up) for dot in dots)
    return "\n".join(
        (
            "<figure>",
            f'<svg class="scatter" role="img" viewBox="0 0 {WIDE:g} {HIGH:g}" '
            'aria-labelledby="scatter-title scatter-told">',
            f'<title id="scatter-title">{escape(title)}</title>',
            f'<desc id="scatter-told">{escape(told)}</desc>',
            *_field(x, y),
            *(_dot(dot, x, y) for dot in sorted(dots, key=lambda dot: (dot.best, -dot.number))),
            *_numbers(dots, x, y),
            "</svg>",
            f"<figcaption>{escape(title)}; numbers as in the table, unbeaten ones filled</figcaption>",
            "</figure>",
        )
    )


def _told(dot: Dot, across: str, up: str) -> str:
    """A dot in words."""
    best = ", unbeaten" if dot.best else ""
    return f"{dot.number} {dot.name}: {dot.across:.0f} {across}, {dot.up:.1f} {up}{best}"


def _field(x: Axis, y: Axis) -> Iterator[str]:
    """Ticks with their figures, and what the axes are."""
    for value in x.ticks:
        at = f"{x.at(value):.1f}"
        yield f'<path class="tick" d="M{at} {TOP:g} V{HIGH - BOTTOM:g}"/>'
        yield f'<text x="{at}" y="{HIGH - BOTTOM + 18:g}" text-anchor="middle">{_shown(value)}</text>'
    for value in y.ticks:
        level = y.at(value)
        yield f'<path class="tick" d="M{LEFT:g} {level:.1f} H{WIDE - RIGHT:g}"/>'
        yield f'<text x="{LEFT - 8:g}" y="{level + 4:.1f}" text-anchor="end">{_shown(value)}</text>'
    middle = (LEFT + WIDE - RIGHT) / 2
    yield f'<text x="{middle:g}" y="{HIGH - 8:g}" text-anchor="middle">{escape(x.words)}</text>'
    yield f'<text x="14" y="{TOP - 16:g}">{escape(y.words)}</text>'


def _shown(value: float) -> str:
    """A tick's figure without the noise of its sum."""
    return f"{round(value, 6):g}"


def _dot(dot: Dot, x: Axis, y: Axis) -> str:
    kind = "dot best" if dot.best else "dot"
    at = f'cx="{x.at(dot.across):.1f}" cy="{y.at(dot.up):.1f}"'
    return f'<circle class="{kind}" {at} r="{RADIUS:g}"><title>{escape(dot.name)}</title></circle>'


def _numbers(dots: Sequence[Dot], x: Axis, y: Axis) -> Iterator[str]:
    """Every dot's number beside it, where it is furthest from other dots and numbers."""
    places = [(x.at(dot.across), y.at(dot.up)) for dot in dots]
    taken = list(places)
    for dot, (across, up) in zip(dots, places, strict=True):
        others = [one for one in taken if one != (across, up)]
        spots = [(across + right, up + down) for right, down in BESIDE]
        spot = max(spots, key=lambda one: min((dist(one, other) for other in others), default=0.0))
        taken.append(spot)
        yield f'<text x="{spot[0]:.1f}" y="{spot[1]:.1f}" text-anchor="middle">{dot.number}</text>'
