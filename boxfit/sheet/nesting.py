"""All flats laid out on stock sheets: their bounding rectangles, by a packing library, the best of its ways.

The fewest sheets, then the smallest length used of them. The same flats always give the same layout.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from math import ceil

from boxfit.sheet.flat import Flat
from boxfit.sheet.stock import CLOSE, Nesting, Placed, Sheet, Stock, StockUse, Wanted
from boxfit.standards.bending import least_inside_radius

ALGORITHMS = ("MaxRectsBssf", "MaxRectsBaf", "MaxRectsBlsf", "GuillotineBssfSas", "GuillotineBafSas")
SORTS = ("SORT_AREA", "SORT_LSIDE", "SORT_SSIDE", "SORT_PERI")
MANY = 60
"""With more parts than this only the first algorithm and two sorts are tried, so that it stays quick."""
FINE = 1000.0
"""The library counts whole micrometres."""

STANDINGS = ("along", "across", "either")
"""Which way the long side of a part that may turn lies on the sheet."""
HALVINGS = 5
"""How often the last sheet is tried shorter."""

Layout = tuple[tuple[Placed, ...], ...]
"""What lies on each sheet."""


@dataclass(frozen=True)
class _Piece:
    """One copy of a part, and how it may lie: `turned` is None where it may lie both ways."""

    part: Wanted
    copy: int
    turned: bool | None


def nested(wanted: tuple[Wanted, ...]) -> Nesting:
    """Lays every flat out as often as asked on sheets of its material and thickness; bars are left out.

    A part turns by a quarter where that helps, unless it is folded tightly and one way only: its folds
    then lie across the sheet's grain. Where only the other way fits, it is taken, and told.
    """
    asked = sorted(
        ((_stock(one), one) for one in wanted if not one.flat.bar), key=lambda pair: (pair[0], pair[1].number)
    )
    too_large = tuple(one for stock, one in asked if not _ways(one.flat, stock))
    notes: list[str] = []
    uses: list[StockUse] = []
    counts: dict[tuple[str, float], int] = {}
    for stock, group in groupby(asked, key=lambda pair: pair[0]):
        pieces = [piece for _, one in group for piece in _pieces(one, stock, notes)]
        if pieces:
            sort = (stock.material, stock.thickness)
            layout = _best(stock, pieces)
            sheets = (
                Sheet(stock, counts.get(sort, 0) + number, placed)
                for number, placed in enumerate(layout, start=1)
            )
            uses.append(StockUse(stock, tuple(sheets)))
            counts[sort] = counts.get(sort, 0) + len(layout)
    return Nesting(tuple(uses), too_large, tuple(notes))


def _stock(one: Wanted) -> Stock:
    """The sheet that a part is cut from."""
    shop, flat = one.shop, one.flat
    size = (max(shop.sheet), min(shop.sheet))
    return Stock(flat.material, flat.thickness, size, shop.sheet_edge, shop.part_gap)


def _ways(flat: Flat, stock: Stock) -> tuple[bool, ...]:
    """Which ways round, turned or not, the sheet takes a flat."""
    wide, deep = flat.size
    return tuple(
        turned for turned, size in ((False, (wide, deep)), (True, (deep, wide))) if stock.takes(*size)
    )


def _pieces(one: Wanted, stock: Stock, notes: list[str]) -> Iterator[_Piece]:
    """The copies of a part that a sheet takes, each with the way that it must lie."""
    ways = _ways(one.flat, stock)
    if not ways:
        return
    asked = grain_turn(one.flat)
    if asked is not None and asked not in ways:
        notes.append(f"{one.flat.name}: fits the sheet only with its folds along the grain")
    turned = ways[0] if len(ways) == 1 else asked
    for copy in range(1, one.flat.quantity + 1):
        yield _Piece(one, copy, turned)


def grain_turn(flat: Flat) -> bool | None:
    """Whether a flat must be turned so that its folds lie across the sheet's length; None where it may be.

    Folds as tight as the sheet takes ask for it where they all run one way (common practice, no source); of
    folds that run both ways some lie along the grain anyhow.
    """
    least = least_inside_radius(flat.material, flat.thickness)
    if not flat.bends or (least and min(bend.radius for bend in flat.bends) > least.radius + CLOSE):
        return None
    along_x = {abs(bend.end[0] - bend.start[0]) > abs(bend.end[1] - bend.start[1]) for bend in flat.bends}
    return along_x.pop() if len(along_x) == 1 else None


def _best(stock: Stock, pieces: list[_Piece]) -> Layout:
    """The best layout of all tries: fewest sheets, least length used, the earlier try."""
    best = _least(_tries(stock, pieces, ()))
    shortest = stock.edge
    for _ in range(HALVINGS):
        *_, last = _lengths(best)
        room = (shortest + last) / 2.0
        bins = (*[stock.usable[0]] * (len(best) - 1), room - stock.edge)
        found = _least(_tries(stock, pieces, bins))
        if found:
            best = found
        else:
            shortest = room
    return best


def _least(found: Iterator[Layout]) -> Layout:
    """The layout with the fewest sheets and the least length used; empty where there is none."""
    return min(filter(None, found), key=lambda one: (len(one), round(sum(_lengths(one)), 3)), default=())


def _lengths(layout: Layout) -> list[float]:
    """The length [mm] used of each sheet."""
    return [max(one.at[0] + one.size[0] for one in placed) for placed in layout]


def _tries(stock: Stock, pieces: list[_Piece], lengths: tuple[float, ...]) -> Iterator[Layout]:
    """One layout for each algorithm, sort and standing; empty where it does not fit or keep the grain.

    `lengths` [mm] are those usable of each sheet there is; where empty, as many whole ones as needed.
    """
    many = len(pieces) > MANY
    for algorithm in ALGORITHMS[:1] if many else ALGORITHMS:
        for sort in SORTS[:2] if many else SORTS:
            for standing in STANDINGS:
                yield _packed(stock, pieces, (algorithm, sort, standing), lengths)


def _packed(
    stock: Stock, pieces: list[_Piece], how: tuple[str, str, str], lengths: tuple[float, ...]
) -> Layout:
    """One try. Each rectangle is grown by the gap, and so is the room on the sheet."""
    import rectpack

    algorithm, sort, standing = how
    packer = rectpack.newPacker(
        bin_algo=rectpack.PackingBin.BFF,
        pack_algo=getattr(rectpack, algorithm),
        sort_algo=getattr(rectpack, sort),
        rotation=standing == "either",
    )
    turns = [_turned(piece, standing) for piece in pieces]
    sizes = [_size(piece, turned, stock.gap) for piece, turned in zip(pieces, turns, strict=True)]
    for place, size in enumerate(sizes):
        packer.add_rect(*size, rid=place)
    for length in lengths or stock.usable[:1]:
        room = (length + stock.gap, stock.usable[1] + stock.gap)
        packer.add_bin(*(int(side * FINE + 0.5) for side in room), count=1 if lengths else float("inf"))
    packer.pack()
    sheets: dict[int, list[Placed]] = {}
    for sheet, x, y, wide, deep, place in sorted(packer.rect_list(), key=lambda one: one[5]):
        piece, turned = pieces[place], turns[place] ^ ((wide, deep) != sizes[place])
        if piece.turned not in (None, turned):
            return ()
        at = (stock.edge + x / FINE, stock.edge + y / FINE)
        sheets.setdefault(sheet, []).append(Placed(piece.part, piece.copy, at, turned))
    complete = sum(map(len, sheets.values())) == len(pieces)
    return tuple(tuple(sheets[sheet]) for sheet in sorted(sheets)) if complete else ()


def _turned(piece: _Piece, standing: str) -> bool:
    """Whether a piece starts out turned."""
    if piece.turned is not None:
        return piece.turned
    wide, deep = piece.part.flat.size
    return (wide > deep) if standing == "across" else (deep > wide)


def _size(piece: _Piece, turned: bool, gap: float) -> tuple[int, int]:
    """Width and depth as the piece lies, grown by the gap, in whole micrometres, rounded up."""
    wide, deep = (ceil((side + gap) * FINE - CLOSE) for side in piece.part.flat.size)
    return (deep, wide) if turned else (wide, deep)
