"""The judge of stock sheets: what lies on each is measured on its drawing and counted by the cut list."""

import csv
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.judge.finding import SLACK, Finding

if TYPE_CHECKING:
    from ezdxf.entities.dxfentity import DXFEntity
    from ezdxf.entities.lwpolyline import LWPolyline
    from shapely import Polygon

Row = dict[str, str]
FLAT = 0.0005
"""Arcs are drawn with chords no further than this [mm] from them."""
ROUNDED = 1.0
"""An area [mm2] is listed whole."""
CUT_FROM_SHEET = "sheet"


def judge_nesting(folder: Path) -> tuple[Finding, ...]:
    """Everything wrong with the stock sheets in a folder: sheets.csv, cut-list.csv and a DXF for each sheet.

    Distances are those between the real contours as drawn. Files that cannot be read give findings too.
    """
    try:
        placed, asked = _rows(folder / "sheets.csv"), _rows(folder / "cut-list.csv")
        sheets = {row["sheet"]: [one for one in placed if one["sheet"] == row["sheet"]] for row in placed}
        found = [*_counts(placed, asked)]
        areas = {row["part"]: float(row["area [mm2]"]) for row in asked}
        for name, rows in sheets.items():
            found += _judge_sheet(folder / f"{name}.dxf", rows, areas)
    except (OSError, KeyError, ValueError) as error:
        return (Finding("sheet-unread", "stock sheets", f"cannot be read back: {error}"),)
    return tuple(found)


def _rows(path: Path) -> list[Row]:
    with path.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def _counts(placed: list[Row], asked: list[Row]) -> Iterator[Finding]:
    """Every part on the sheets as often as the cut list asks, and no other."""
    there = Counter(row["part"] for row in placed)
    wanted = Counter(
        {row["part"]: int(row["quantity"]) for row in asked if row["cut from"] == CUT_FROM_SHEET}
    )
    for part in sorted(there.keys() | wanted.keys()):
        if there[part] != wanted[part]:
            text = f"{there[part]} on the sheets, {wanted[part]} asked for"
            yield Finding("sheet-count", part, text, float(there[part]))


def _judge_sheet(path: Path, rows: list[Row], areas: dict[str, float]) -> Iterator[Finding]:
    """One sheet: its parts whole and where the list says, clear of the edge and of one another."""
    parts = _parts(path)
    if len(parts) != len(rows):
        text = f"{len(parts)} parts drawn, {len(rows)} listed"
        yield Finding("sheet-drawn", path.stem, text, float(len(parts)))
        return
    names, drawn = [row["part"] for row in rows], []
    for row in rows:
        off, place = min((_off(row, part), place) for place, part in enumerate(parts))
        drawn.append(parts.pop(place))
        if off > 2.0 * SLACK:
            yield Finding("sheet-drawn", f"{path.stem}: {row['part']}", f"drawn {off:.3f} mm elsewhere", off)
        more = drawn[-1].area - areas.get(row["part"], 0.0)
        if abs(more) > ROUNDED + 1e-5 * drawn[-1].area:
            yield Finding(
                "sheet-cut", f"{path.stem}: {row['part']}", f"{more:.0f} mm2 more than listed", more
            )
    yield from _edges(path.stem, rows[0], drawn, names)
    yield from _gaps(path.stem, float(rows[0]["gap"]), drawn, names)


def _off(row: Row, drawn: "Polygon") -> float:
    """How far [mm] a contour's extent is from where the list has a part."""
    extent = _extent(row)
    return float(max(abs(one - other) for one, other in zip(extent, drawn.bounds, strict=True)))


def _extent(row: Row) -> tuple[float, float, float, float]:
    """Where a part reaches from and to."""
    x, y, wide, deep = (float(row[key]) for key in ("x", "y", "wide", "deep"))
    return (x, y, x + wide, y + deep)


def _edges(sheet: str, row: Row, parts: "list[Polygon]", names: list[str]) -> Iterator[Finding]:
    """Every part far enough from the sheet's edge."""
    long, short, edge = (float(row[key]) for key in ("long", "short", "edge"))
    for part, name in zip(parts, names, strict=True):
        low_x, low_y, high_x, high_y = part.bounds
        left = min(low_x, low_y, long - high_x, short - high_y)
        if left < edge - SLACK:
            yield Finding(
                "sheet-edge", f"{sheet}: {name}", f"{left:.3f} mm from the edge, {edge:g} asked", left
            )


def _gaps(sheet: str, gap: float, parts: "list[Polygon]", names: list[str]) -> Iterator[Finding]:
    """No two parts too near to each other."""
    from shapely import STRtree

    ones, others = STRtree(parts).query(parts, predicate="dwithin", distance=gap - SLACK)
    for one, other in sorted(zip(ones.tolist(), others.tolist(), strict=True)):
        if one < other:
            away = float(parts[one].distance(parts[other]))
            place = f"{sheet}: {names[one]} and {names[other]}"
            yield Finding("sheet-gap", place, f"{away:.3f} mm apart, {gap:g} asked", away)


def _parts(path: Path) -> "list[Polygon]":
    """The parts cut on a drawing: outer contours, less the openings and holes that lie in them."""
    from ezdxf.filemanagement import readfile
    from ezdxf.lldxf.const import DXFError
    from shapely import Polygon, STRtree, union_all

    try:
        space = readfile(path).modelspace()
    except DXFError as error:
        raise ValueError(str(error)) from None
    contours = [Polygon(_points(one)) for one in space.query('LWPOLYLINE[layer=="cut"]')]  # type: ignore[arg-type]
    contours += [Polygon(_round(one)) for one in space.query('CIRCLE[layer=="cut"]')]
    inside, outside = STRtree(contours).query(contours, predicate="within")
    lying: dict[int, list[Polygon]] = {}
    openings: set[int] = set()
    for one, other in sorted(zip(inside.tolist(), outside.tolist(), strict=True)):
        if one != other:
            openings.add(one)
            lying.setdefault(other, []).append(contours[one])
    return [
        contour.difference(union_all(lying.get(place, [])))
        for place, contour in enumerate(contours)
        if place not in openings
    ]


def _round(circle: "DXFEntity") -> list[tuple[float, float]]:
    """Points of a hole."""
    return [(point.x, point.y) for point in circle.flattening(FLAT)]  # type: ignore[attr-defined]


def _points(contour: "LWPolyline") -> list[tuple[float, float]]:
    """Points of a contour, its arcs as chords."""
    found: list[tuple[float, float]] = []
    for (x, y, bulge), edge in zip(contour.get_points("xyb"), contour.virtual_entities(), strict=True):
        found.append((x, y))
        if edge.dxftype() == "ARC":
            along = [(point.x, point.y) for point in edge.flattening(FLAT)]  # type: ignore[union-attr]
            found += along[1:-1] if bulge > 0.0 else along[-2:0:-1]
    return found
