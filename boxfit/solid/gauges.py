"""Printed aids as STL files, whole and in pieces for the bed, and a list that says how they are used."""

import csv
from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.box.gauges import Gauge, gauges
from boxfit.box.names import file_stem
from boxfit.box.whole import BuiltBox
from boxfit.module import Module
from boxfit.solid.mesh import write_stl
from boxfit.solid.pieces import block, mesh_of_piece, pieces_of

if TYPE_CHECKING:
    from manifold3d import Manifold

GAUGES = "gauges.csv"
HEADINGS = ("gauge", "file", "quantity", *(f"size {axis} [mm]" for axis in "xyz"), "volume [cm3]", "use")


def write_gauges(module: Module, built: tuple[BuiltBox, ...], folder: Path) -> tuple[str, ...]:
    """Writes the aids for a module and the boxes that take it; returns the names of the files.

    An aid that does not fit the printer's bed is there whole and in pieces. Nothing without a box. Raises
    OSError where a file cannot be written.
    """
    rows = [row for gauge in gauges(module, built) for row in _write_gauge(gauge, folder)]
    if not rows:
        return ()
    text = StringIO()
    table = csv.writer(text, lineterminator="\n")
    table.writerow(HEADINGS)
    table.writerows(rows)
    (folder / GAUGES).write_text(text.getvalue(), encoding="utf-8")
    return (*(str(row[1]) for row in rows), GAUGES)


def _write_gauge(gauge: Gauge, folder: Path) -> list[list[object]]:
    """The files of one aid, and the rows of the list; its whole counts only where it is not in pieces."""
    whole, stem = gauge_solid(gauge), file_stem(gauge.name)
    pieces = pieces_of(whole, gauge.division)
    bodies = {stem: (whole, 1 if len(pieces) == 1 else 0)}
    if len(pieces) > 1:
        bodies |= {f"{stem}-piece-{number}": (piece, 1) for number, piece in enumerate(pieces, start=1)}
    rows: list[list[object]] = []
    for name, (body, quantity) in bodies.items():
        mesh = mesh_of_piece(body)
        write_stl(mesh, folder / f"{name}.stl")
        size = mesh.corners.max(axis=0) - mesh.corners.min(axis=0)
        figures = [round(float(side), 2) for side in size]
        rows.append([gauge.name, f"{name}.stl", quantity, *figures, round(mesh.volume / 1e3, 2), gauge.about])
    return rows


def gauge_solid(gauge: Gauge) -> "Manifold":
    """The aid as one body, in coordinates of its own [mm]."""
    from manifold3d import Manifold, OpType

    filled = Manifold.batch_boolean([block(one) for one in gauge.filled], OpType.Add)
    return Manifold.batch_boolean([filled, *(block(one) for one in gauge.hollow)], OpType.Subtract)
