"""Whole strings inside the voltage windows, tested at empty and at full, never at nominal."""

from dataclasses import dataclass

from boxfit.car import Car
from boxfit.module import Module

SLACK = 1e-9


@dataclass(frozen=True)
class Pack:
    """`series` modules in each of `parallel` strings."""

    series: int
    parallel: int

    @property
    def count(self) -> int:
        """Modules in all."""
        return self.series * self.parallel


def series_allowed(car: Car, module: Module, most: int) -> tuple[int, ...]:
    """Numbers of modules in series, up to `most`, that every window holds from empty to full.

    Without a window any number is allowed.
    """
    return tuple(
        series
        for series in range(1, most + 1)
        if all(
            window.low - SLACK <= series * module.voltage.empty
            and series * module.voltage.full <= window.high + SLACK
            for window in car.windows
        )
    )


def packs(car: Car, module: Module, most: int) -> tuple[Pack, ...]:
    """Every count of whole strings up to `most`, the largest first, with the longest string for it.

    The longest string gives the least current. Where strings must stay in one bay, shorter ones may be
    shared out where longer ones cannot, and follow them. Without [electrics] a pack is one string.
    """
    if not car.windows:
        return tuple(Pack(count, 1) for count in range(most, 0, -1))
    found = [
        Pack(series, parallel)
        for series in series_allowed(car, module, most)
        for parallel in range(1, most // series + 1)
    ]
    ranked = sorted(found, key=lambda pack: (-pack.count, -pack.series))
    if car.string_in_one_bay:
        return tuple(ranked)
    return tuple({pack.count: pack for pack in reversed(ranked)}.values())[::-1]
