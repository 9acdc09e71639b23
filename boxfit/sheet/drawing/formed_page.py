"""A part as it is once folded, welded or printed: three views with outside dimensions."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from boxfit.bay import Vector
from boxfit.box.fitting import Cutout, Strip
from boxfit.box.parts import BoxParts, Part, Tray
from boxfit.sheet.drawing.arrange import Item, arranged
from boxfit.sheet.drawing.board import Board
from boxfit.sheet.drawing.dimension import figure
from boxfit.sheet.drawing.flat_page import labels
from boxfit.sheet.drawing.marks import Page
from boxfit.sheet.drawing.tables import Table
from boxfit.sheet.drawing.three_views import Span, View, draw_views, views_of
from boxfit.sheet.drawing.title import PARTS, WELDED, Title

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

LEAST_SPAN = 0.05
"""Spans shorter than this [mm] are not measured."""


def formed_page(part: Part | Strip, shape: "TopoDS_Shape", title: Title, tables: Sequence[Item] = ()) -> Page:
    """The sheet with a part's three views; `tables` stand with those of its own cutouts and notes."""
    own = tray_spans(part) if isinstance(part, Tray) else None
    views = views_of((shape,), True, (lambda *_: own) if own else None)
    cutouts = part.cutouts if isinstance(part, Tray) else ()
    items = (
        cutout_table(cutouts, part.outside.low if isinstance(part, Tray) else views.low),
        *tables,
        formed_notes(part, printed=title.tolerances not in (PARTS, WELDED)),
    )
    chosen = arranged(views.paper, items)
    board = chosen.board(title)
    places = draw_views(board, views, chosen.scale, chosen.views)
    label_cutouts(board, cutouts, places)
    return board.page()


def tray_spans(tray: Tray) -> tuple[tuple[Span, ...], tuple[Span, ...], tuple[Span, ...]]:
    """The walls' outside within the flange, and in a stepped tray the heights of its steps."""
    low, high = tray.outside.low, tray.outside.high
    plan = [((low[axis], high[axis]),) if tray.flange > LEAST_SPAN else () for axis in (0, 1)]
    steps = tuple((tray.outside.low[2], band.top) for band in tray.bands[:-1])
    return (plan[0], plan[1], steps)


def cutout_table(cutouts: Sequence[Cutout], low: Vector) -> Table:
    """Every hole through walls and floor: how far its middle is from the low corner of the walls [mm]."""
    rows = tuple(
        (f"C{number}", one.what, one.looks, *_from_edges(one, low), size_words(one))
        for number, one in enumerate(cutouts, start=1)
    )
    heading = "Cutouts, from the outside of rear, right and underside"
    return Table(heading, ("no.", "for", "face", "along", "up", "size"), rows)


def _from_edges(cutout: Cutout, low: Vector) -> tuple[str, str]:
    """How far a cutout's middle is along its face and up [mm], from the low end of each."""
    x, y, z = (at - edge for at, edge in zip(cutout.at, low, strict=True))
    if cutout.looks in ("up", "down"):
        return figure(x), figure(y)
    return figure(x if cutout.looks in ("left", "right") else y), figure(z)


def size_words(cutout: Cutout) -> str:
    """A cutout's size [mm] in words."""
    if cutout.diameter:
        return f"Ø{cutout.diameter:g}"
    corner = f", R{cutout.corner:g}" if cutout.corner else ""
    return f"{cutout.size[0]:g} x {cutout.size[1]:g}{corner}"


def label_cutouts(board: Board, cutouts: Sequence[Cutout], places: tuple[View, View, View]) -> None:
    """The numbers of cutouts, each in the view that looks at its face or through the thing to it."""
    right, above, rear = places
    for number, one in enumerate(cutouts, start=1):
        view = right if one.looks in ("left", "right") else rear if one.looks in ("front", "rear") else above
        half = (one.diameter or min(one.size)) / 2.0 * view.scale
        board.place(labels(f"C{number}", view.at(one.at), half, 0.0))


def formed_notes(part: Part | Strip, printed: bool = False) -> tuple[str, ...]:
    """What the views do not tell."""
    if isinstance(part, Tray):
        return printed_tray_notes(part) if printed else tray_notes(part)
    if isinstance(part, Strip):
        legs = " x ".join(figure(length) for _, length in part.legs)
        bent = (f"legs outside {legs}, inside radius {part.radius:g}",) if len(part.legs) > 1 else ()
        return (*bent, *part.notes)
    return ()


def tray_notes(tray: Tray) -> tuple[str, ...]:
    """Radius, flange and welds of a tray."""
    folded = tray.bend_radius is not None
    where = "the flange" if tray.floor_radius is None else "floor and flange"
    bent = (f"inside radius {tray.bend_radius:g} at {where}, bends ±0.5°",) if folded else ()
    flange = (f"flange {figure(tray.flange)} wide from the outside of the wall",) if tray.flange else ()
    holes = (
        (f"{len(tray.holes)} holes Ø{tray.hole_diameter:g} for rivet-nuts in the flange: see the flat",)
        if tray.holes
        else ()
    )
    welds = ("corners welded all the way and tight; flange ground flush on top",)
    return ("outside dimensions, once formed", *bent, *flange, *holes, *welds)


def printed_tray_notes(tray: Tray) -> tuple[str, ...]:
    """Flange, holes and joints of a printed tray."""
    flange = (f"flange {figure(tray.flange)} wide from the outside of the wall",) if tray.flange else ()
    holes = f"{len(tray.holes)} holes Ø{tray.hole_diameter:g} for rivet-nuts in the flange"
    joints = "glue all joints tight, smooth on top of the flange; its pieces: print-pieces.csv"
    return ("outside dimensions, pieces put together", *flange, *((holes,) if tray.holes else ()), joints)


def all_parts(parts: BoxParts) -> tuple[Part | Strip, ...]:
    """Everything of a box that is made, in the order in which it is numbered."""
    cover = (parts.cover_plate,) if parts.cover_plate else ()
    return (parts.tray, parts.lid, *cover, *parts.shelves, *parts.fittings.strips)
