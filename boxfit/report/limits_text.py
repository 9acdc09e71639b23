"""What holds a layout back and what easing it brings, as a page and as comma-separated text."""

import csv
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.report.columns import counted, listed, named, table
from boxfit.report.limits_notes import ALWAYS
from boxfit.search.easing import EVERY_BAY, Easing
from boxfit.search.limits import Eased, Limit

HEADS = ("what is eased", "eased by", "to", "kWh", "share", "then", "at most", "kWh")
PAIR_HEADS = ("what is eased", "eased by", "to", "tolerance", "kWh", "share", "then")
CSV_HEADS = (
    "bay", "what", "negotiable", "settled", "unit", "now",
    "least", "least_to", "least_count", "least_energy", "least_front_share",
    "most", "most_to", "most_count", "most_energy", "most_front_share", "then",
)  # fmt: skip
NAME_LETTERS = 40
"""Letters kept of a thing's name, so that a row stays within the usual width."""
UNITS = ("mm", "kg", "V", "share", "tiers", "boxes", "away")
"""The order of things that gain alike."""


@dataclass(frozen=True)
class Page:
    """The layout as it is, None with the `reasons` where there is none, and what easing each thing brings."""

    car: Car
    module: Module
    layout: Layout | None
    reasons: tuple[str, ...]
    limits: tuple[Limit, ...]

    @property
    def kept(self) -> Layout | None:
        """The layout that gains are told from: one that meets every rule, the target too."""
        return self.layout if self.layout and self.layout.target_met else None

    @property
    def energy(self) -> float:
        """Energy [kWh] that gains are told from; 0 where no layout meets every rule."""
        return self.kept.energy if self.kept else 0.0

    def gained(self, eased: Eased) -> float:
        """Energy [kWh] beyond the layout as it is."""
        return round(eased.layout.energy - self.energy, 6)

    @cached_property
    def gaining(self) -> tuple["Row", ...]:
        """What gains a string, with its least and most: the most energy first, then the least easing."""
        return self._ranked([one for one in self.limits if not self._said_of_one(one)])

    @cached_property
    def pairs(self) -> tuple["Row", ...]:
        """The same of what gains a string beside a wider tolerance of the target."""
        return self._ranked([one.pair for one in self.limits if one.pair])

    def _ranked(self, limits: Sequence[Limit]) -> tuple["Row", ...]:
        found = [(limit, limit.least, limit.most) for limit in limits if limit.least and limit.most]

        def rank(one: Row) -> tuple[float, int, float]:
            return -self.gained(one[2]), UNITS.index(one[0].easing.unit), one[1].by

        return tuple(sorted(found, key=rank))

    def _said_of_one(self, limit: Limit) -> bool:
        """True where easing one bay brings as much as easing them all."""
        own = [
            (one.least, one.most)
            for one in self.limits
            if one.easing.what == limit.easing.what and one.easing.bay != EVERY_BAY
        ]
        return limit.easing.bay == EVERY_BAY and any(
            _figures(least) == _figures(limit.least) and _figures(most) == _figures(limit.most)
            for least, most in own
        )

    @cached_property
    def nothing(self) -> tuple[Easing, ...]:
        """What gains nothing, each thing once."""
        settled = [
            one
            for one in self.limits
            if one.looked_at and one.stands and one.least is None and not one.easing.negotiable
        ]
        named = {(one.easing.bay, one.easing.what) for one in settled}
        return tuple(
            one.easing
            for one in settled
            if (one.easing.bay, one.easing.part_of) not in named
            and (one.easing.bay == EVERY_BAY or (EVERY_BAY, one.easing.what) not in named)
        )

    @cached_property
    def stops(self) -> tuple[str, ...]:
        """What stands in the way of the string after the one gained, every sentence once."""
        return tuple(dict.fromkeys(_then(least) for _, least, _ in (*self.gaining, *self.pairs)))


Row = tuple[Limit, Eased, Eased]
"""A limit with its least and most."""


def limits_page(page: Page) -> str:
    """The whole page, at most 100 letters to a line, ends with a line feed."""
    lines = [f"{page.car.name} with {page.module.name}: what holds the layout back", "", *_now(page), ""]
    lines += [*_gains(page), ""]
    if prices := tuple(_prices(page)):
        lines += ["what could go, and what keeping it costs", *listed(prices), ""]
    late = [limit.easing for limit in page.limits if not limit.looked_at]
    unsound = [limit.easing for limit in page.limits if not limit.stands]
    for head, things in (
        ("what brings nothing alone", page.nothing),
        ("not looked at, the time was up: give more --seconds", late),
        ("not settled, a layout found did not pass the judge", unsound),
    ):
        if things:
            lines += [head, *listed(tuple(_grouped(things))), ""]
    lines += ["to be heeded", *listed(ALWAYS)]
    return "\n".join(lines) + "\n"


def _now(page: Page) -> Iterator[str]:
    layout = page.layout
    yield "as it is"
    if layout is None:
        yield from listed(("No layout meets the hard rules.", *page.reasons))
        return
    strings = f"{layout.series} in series x {layout.parallel} parallel, {layout.energy:.4g} kWh"
    yield from named("count", f"{counted(layout.count, 'module')}, {strings}")
    if layout.weights.front_share is not None:
        yield from named("front share", f"{layout.weights.front_share:.3f}")
    for place, note in enumerate(layout.notes):
        yield from named("" if place else "held back", note)


def _gains(page: Page) -> Iterator[str]:
    string = "another string" if page.kept else "a layout that meets every rule"
    if page.gaining:
        yield f"what brings {string} when eased alone"
        yield "  (the least that does, its kWh, front share, what stops the next; the most and its kWh)"
        yield from table([HEADS, *(_row(page, *one) for one in page.gaining)])
    else:
        alone = "of what was looked at " if any(not limit.looked_at for limit in page.limits) else ""
        yield from listed((f"Nothing {alone}brings {string} when eased alone.",))
    if page.pairs:
        yield ""
        yield f"what brings {string} together with a wider tolerance of the target"
        yield from table([PAIR_HEADS, *(_pair_row(page, *one) for one in page.pairs)])
    if not page.stops:
        return
    if not page.kept:
        yield from listed(("kWh are told from nothing: as it is, no layout meets every rule.",))
    yield ""
    yield "what then stands in the way of the next string"
    for letter, words in enumerate(page.stops):
        yield from named(f"  {_letter(letter)}", words)


def _row(page: Page, limit: Limit, least: Eased, most: Eased) -> tuple[str, ...]:
    easing = limit.easing
    return (
        *_eased(easing, least),
        *_brought(page, least),
        "" if most is least else _by(easing, most.by),
        "" if most is least else f"{page.gained(most):+.1f}",
    )


def _pair_row(page: Page, limit: Limit, least: Eased, _most: Eased) -> tuple[str, ...]:
    return (*_eased(limit.easing, least), _figure(limit.easing.tolerance), *_brought(page, least))


def _eased(easing: Easing, least: Eased) -> tuple[str, str, str]:
    """What is eased, by how much, and to what."""
    return _short(_name(easing)), _by(easing, least.by), _figure(easing.becomes(least.by))


def _brought(page: Page, least: Eased) -> tuple[str, str, str]:
    """Energy [kWh], front share, and what then stands in the way."""
    share = least.layout.weights.front_share
    letter = _letter(page.stops.index(_then(least)))
    return f"{page.gained(least):+.1f}", "-" if share is None else f"{share:.3f}", letter


def _prices(page: Page) -> Iterator[str]:
    """What keeping each negotiable keep-out costs."""
    for limit in page.limits:
        without = limit.most or limit.alike
        if not limit.easing.negotiable or not limit.looked_at:
            continue
        name = f"{limit.easing.bay}: the {limit.easing.what}"
        if (pair := limit.pair) and pair.least and pair.easing.tolerance:
            beside = f"beside a target tolerance of {pair.easing.tolerance:g}"
            yield f"{name} costs {page.gained(pair.least):.1f} kWh {beside}."
        if without is None:
            yield f"{name} has no price to tell: without it no layout meets every rule either."
            continue
        shares = (page.kept.weights if page.kept else without.layout.weights, without.layout.weights)
        before, after = (weights.front_share for weights in shares)
        cost = f"{page.gained(without):.1f} kWh"
        modules = f"{page.kept.count if page.kept else 0} modules with it, {without.layout.count} without"
        if before is None or after is None:
            yield f"{name} costs {cost} ({modules})."
        else:
            share = f"{abs(after - before):.3f} of front share"
            yield f"{name} costs {cost} and {share} ({modules}; front share {before:.3f} and {after:.3f})."


def _grouped(easings: Sequence[Easing]) -> Iterator[str]:
    """Things by bay."""
    for bay in dict.fromkeys(easing.bay for easing in easings):
        own = "; ".join(easing.what for easing in easings if easing.bay == bay)
        yield f"{bay or 'the car'}: {own}."


def _figures(eased: Eased | None) -> tuple[float, int] | None:
    """How far and how much, to compare."""
    return None if eased is None else (eased.by, eased.layout.count)


def _name(easing: Easing) -> str:
    return f"{easing.bay}: {easing.what}" if easing.bay else easing.what


def _by(easing: Easing, by: float) -> str:
    """An easing in trade words."""
    if easing.unit == "away":
        return "away"
    if easing.unit in ("tiers", "boxes"):
        return f"{by:.0f} more"
    return _figure(by) if easing.unit == "share" else f"{_figure(by)} {easing.unit}"


def _then(eased: Eased) -> str:
    """What stands in the way of the next string."""
    return eased.layout.notes[0]


def _letter(place: int) -> str:
    """a, b, ... z, aa, ab, ...

    >>> _letter(0), _letter(25), _letter(26)
    ('a', 'z', 'aa')
    """
    more, last = divmod(place, 26)
    return (_letter(more - 1) if more else "") + chr(ord("a") + last)


def _figure(value: float | None) -> str:
    return "" if value is None else f"{round(value, 4):.10g}"


def _short(name: str) -> str:
    return name if len(name) <= NAME_LETTERS else name[: NAME_LETTERS - 1] + "…"


def limits_csv(page: Page) -> str:
    """Every thing in the order listed as comma-separated text; empty where nothing is gained or not known."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(CSV_HEADS)
    for limit in page.limits:
        easing = limit.easing
        flags = ("yes" if easing.negotiable else "no", "yes" if limit.looked_at and limit.stands else "no")
        eased = (*_cells(page, easing, limit.least), *_cells(page, easing, limit.most))
        then = _then(limit.least) if limit.least else ""
        writer.writerow((easing.bay, easing.what, *flags, easing.unit, _figure(easing.now), *eased, then))
    return text.getvalue()


def _cells(page: Page, easing: Easing, eased: Eased | None) -> tuple[str, ...]:
    if eased is None:
        return ("", "", "", "", "")
    share = eased.layout.weights.front_share
    energy = _figure(page.gained(eased))
    return (
        _figure(eased.by), _figure(easing.becomes(eased.by)), str(eased.layout.count), energy, _figure(share)
    )  # fmt: skip
