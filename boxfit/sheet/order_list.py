"""The order list: all that is bought before the boxes can be made."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import ceil

from boxfit.box.fitting import Fastener
from boxfit.box.whole import BuiltBox
from boxfit.box_shape import area
from boxfit.sheet.csv_text import csv_text
from boxfit.sheet.fastener_list import merged
from boxfit.sheet.flat import Flat
from boxfit.sheet.stock import Nesting, Wanted

SAW = 3.0
"""What a cut of the saw takes off a bar [mm] (common practice, no source)."""
WHOLE = 100.0
"""Bar is ordered in whole lengths of this [mm] (common practice, no source)."""
HEADS = ("what", "specification", "quantity", "unit", "for")


@dataclass(frozen=True)
class Order:
    """One row: what to ask for, how many or how much of it, and what it goes into."""

    what: str
    about: str
    quantity: str
    unit: str
    used_for: str


def orders_of(
    built: tuple[BuiltBox, ...],
    wanted: tuple[Wanted, ...],
    nesting: Nesting,
    fasteners: Iterable[Fastener],
) -> tuple[Order, ...]:
    """Sheet and bar first, then gasket and liner, bought fittings, and what all is fastened with."""
    return (
        *_sheets(nesting),
        *_bars(wanted),
        *_gaskets(built),
        *_liners(built),
        *_bought(built),
        *(Order(one.what, one.thread, str(one.count), "pc", one.where) for one in merged(fasteners)),
    )


def order_list_csv(orders: tuple[Order, ...]) -> str:
    """A row for each thing to order."""
    rows = ((one.what, one.about, one.quantity, one.unit, one.used_for) for one in orders)
    return csv_text(HEADS, rows)


def _sheets(nesting: Nesting) -> Iterator[Order]:
    """Stock sheets, and blanks that no sheet takes."""
    for use in nesting.uses:
        stock = use.stock
        about = f"{stock.material}, {stock.thickness:g} mm, {stock.size[0]:g} x {stock.size[1]:g} mm"
        parts = sum(len(sheet.placed) for sheet in use.sheets)
        told = f"{parts} parts, {use.mass_bought:.1f} kg{use.offcut}"
        yield Order("sheet", about, str(len(use.sheets)), "pc", told)
    for one in nesting.too_large:
        long, short = (ceil(side) for side in sorted(one.flat.size, reverse=True))
        about = f"{one.flat.material}, {one.flat.thickness:g} mm, at least {long} x {short} mm"
        yield Order("larger sheet", about, str(one.flat.quantity), "pc", one.flat.name)


def _bars(wanted: tuple[Wanted, ...]) -> Iterator[Order]:
    """Flat bar by section, every piece with a cut of the saw."""
    bars = [one.flat for one in wanted if one.flat.bar]
    sections: dict[tuple[str, float, float], list[Flat]] = {}
    for bar in bars:
        sections.setdefault((bar.material, bar.thickness, min(bar.size)), []).append(bar)
    for (material, thick, high), alike in sections.items():
        length = sum((max(bar.size) + SAW) * bar.quantity for bar in alike)
        about = f"{material}, {thick:g} x {high:g} mm"
        metres = WHOLE * ceil(length / WHOLE - 1e-9) / 1000.0
        pieces = sum(bar.quantity for bar in alike)
        yield Order("flat bar", about, f"{metres:.1f}", "m", f"{pieces} pieces")


def _gaskets(built: tuple[BuiltBox, ...]) -> Iterator[Order]:
    """By section; spare length is part of each box's."""
    sorts: dict[tuple[str, float, float], list[tuple[float, str]]] = {}
    for one in built:
        gasket = one.parts.gasket
        if gasket:
            sort = (gasket.material, gasket.width, gasket.thickness)
            sorts.setdefault(sort, []).append((gasket.order, one.parts.name))
    for (material, width, thickness), uses in sorts.items():
        metres = sum(length for length, _ in uses) / 1000.0
        about = f"{material}, {width:g} x {thickness:g} mm, spare included"
        yield Order("gasket", about, f"{metres:.1f}", "m", "; ".join(name for _, name in uses))


def _liners(built: tuple[BuiltBox, ...]) -> Iterator[Order]:
    """By thickness, the sheets' own area."""
    sorts: dict[tuple[str, float], list[tuple[float, str]]] = {}
    for one in built:
        liner, thick = one.parts.liner, one.bay.box.liner
        if liner:
            volume = sum(
                abs(area(part.sheet.outline)) * (part.sheet.top - part.sheet.bottom) for part in liner.sheets
            )
            sorts.setdefault((liner.material, thick), []).append((volume / thick, one.parts.name))
    for (material, thick), uses in sorts.items():
        square_metres = sum(size for size, _ in uses) * 1e-6
        about = f"{material}, {thick:g} mm, net: add what is cut away"
        yield Order("liner", about, f"{square_metres:.2f}", "m2", "; ".join(name for _, name in uses))


def _bought(built: tuple[BuiltBox, ...]) -> Iterator[Order]:
    """Bought fittings, equal ones together."""
    sorts: dict[tuple[str, str], list[str]] = {}
    for one in built:
        for bought in one.parts.fittings.bought:
            sorts.setdefault((bought.kind, bought.about), []).append(one.parts.name)
    for (kind, about), uses in sorts.items():
        yield Order(kind, about, str(len(uses)), "pc", "; ".join(dict.fromkeys(uses)))
