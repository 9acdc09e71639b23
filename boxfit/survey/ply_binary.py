"""The rows of a binary .ply."""

import struct

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Surface
from boxfit.survey.ply_heading import Element
from boxfit.survey.raw import MOST_TRIANGLES, RawMesh, broken, cut_short, too_many_triangles


def read_binary(data: bytes, order: str, elements: tuple[Element, ...]) -> Surface:
    """The triangles in what follows the heading. Raises SurveyError."""
    points, triangles = np.zeros((0, 3)), np.zeros((0, 3), np.int64)
    place = 0
    for element in elements:
        if not element.columns or not element.count:
            continue
        _check_length(element, len(data) - place)
        rows = _even_rows(data, place, order, element)
        if rows is None:
            mesh, place = _uneven_rows(data, place, order, element)
            triangles = mesh.as_surface().triangles if element.name == "face" else triangles
            continue
        place += rows.nbytes
        if element.name == "vertex":
            points = np.column_stack([rows[f"{element.column(axis)}"].astype(np.float64) for axis in "xyz"])
        elif element.name == "face":
            triangles = _fans(rows[f"{element.corners}"].astype(np.int64))
    return Surface(points.reshape(-1, 3), triangles)


def _check_length(element: Element, left: int) -> None:
    row = sum(struct.calcsize(f"={column.counted or column.kind}") for column in element.columns)
    if element.count * row > left:
        raise cut_short(f"{left} bytes do not hold its {element.count} {element.name} rows")


def _even_rows(data: bytes, start: int, order: str, element: Element) -> NDArray[np.void] | None:
    """All rows at once, columns named by place, where every list is as long as in the first row."""
    fields: list[tuple[str, str] | tuple[str, str, tuple[int]]] = []
    lengths: dict[str, int] = {}
    place = start
    for index, column in enumerate(element.columns):
        if column.counted is None:
            fields.append((f"{index}", order + column.kind))
            place += struct.calcsize(f"={column.kind}")
            continue
        length, place = _length(data, place, order + column.counted)
        if length > MOST_TRIANGLES:
            raise too_many_triangles()
        place += length * struct.calcsize(f"={column.kind}")
        if place > len(data):
            raise cut_short(f"its first {element.name} row lists {length} numbers")
        lengths[f"length {index}"] = length
        fields += [(f"length {index}", order + column.counted), (f"{index}", order + column.kind, (length,))]
    kind = np.dtype(fields)
    if start + element.count * kind.itemsize > len(data):
        if not element.has_lists:
            raise cut_short(f"it does not hold its {element.count} {element.name} rows")
        return None
    rows = np.frombuffer(data, kind, element.count, start)
    even = all(bool(np.all(rows[name] == length)) for name, length in lengths.items())
    return rows if even else None


def _length(data: bytes, place: int, kind: str) -> tuple[int, int]:
    """The length of a list and where its numbers begin."""
    if place + struct.calcsize(kind) > len(data):
        raise cut_short("it ends within a row")
    (length,) = struct.unpack_from(kind, data, place)
    if length < 0:
        raise broken(f"a row lists {length} numbers")
    return int(length), place + struct.calcsize(kind)


def _uneven_rows(data: bytes, place: int, order: str, element: Element) -> tuple[RawMesh, int]:
    """The polygons of an element that is read row by row, and where it ends."""
    if element.name == "vertex":
        raise broken("its points list numbers, not always as many")
    mesh = RawMesh()
    corners = element.corners if element.name == "face" else -1
    for _ in range(element.count):
        for index, column in enumerate(element.columns):
            length = 1
            if column.counted is not None:
                length, place = _length(data, place, order + column.counted)
            end = place + length * struct.calcsize(f"={column.kind}")
            if end > len(data):
                raise cut_short(f"it does not hold its {element.count} {element.name} rows")
            if index == corners:
                if length > MOST_TRIANGLES:
                    raise too_many_triangles()
                mesh.add_polygon(list(struct.unpack_from(f"{order}{length}{column.kind}", data, place)))
            place = end
    return mesh, place


def _fans(polygons: NDArray[np.int64]) -> NDArray[np.int64]:
    """Polygons of the same number of corners as triangles about their first."""
    count, corners = polygons.shape
    if count * (corners - 2) > MOST_TRIANGLES:
        raise too_many_triangles()
    if corners < 3:
        return np.zeros((0, 3), np.int64)
    first = np.broadcast_to(polygons[:, :1], (count, corners - 2))
    return np.stack([first, polygons[:, 1:-1], polygons[:, 2:]], axis=2).reshape(-1, 3)
