"""Reads .stl, binary or text: triangles that share no points.

Binary: 80 bytes of heading, the number of triangles in 4, then 50 bytes for each, least byte first.
"""

from typing import BinaryIO

import numpy as np

from boxfit.surface import Surface
from boxfit.survey.raw import MOST_TRIANGLES, RawMesh, blocks_of_lines, broken, cut_short, too_many_triangles

_HEADING = 84
_TRIANGLE = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("rest", "<u2")])


def read_stl(file: BinaryIO, size: int) -> Surface:
    """The triangles of an open file of `size` [bytes]. Raises SurveyError, ValueError for a wrong number."""
    heading = file.read(1024)
    count = int.from_bytes(heading[80:_HEADING], "little") if len(heading) >= _HEADING else None
    if count is not None and size == _HEADING + _TRIANGLE.itemsize * count:
        return _binary(file, count)
    if heading.lstrip()[:5].lower() == b"solid" and b"\0" not in heading:
        file.seek(0)
        return _text(file)
    if count is None:
        raise cut_short(f"{size} bytes do not even hold its heading")
    needs = _HEADING + _TRIANGLE.itemsize * count
    if size < needs:
        raise cut_short(f"for its {count} triangles it needs {needs} bytes and has {size}")
    raise broken(f"for its {count} triangles it needs {needs} bytes and has {size}")


def _binary(file: BinaryIO, count: int) -> Surface:
    if count > MOST_TRIANGLES:
        raise too_many_triangles()
    file.seek(_HEADING)
    found = np.frombuffer(file.read(), dtype=_TRIANGLE, count=count)
    points = found["corners"].reshape(-1, 3).astype(np.float64)
    return Surface(points, np.arange(len(points), dtype=np.int64).reshape(-1, 3))


def _text(file: BinaryIO) -> Surface:
    mesh = RawMesh()
    facets, last = 0, b""
    for lines in blocks_of_lines(file):
        for words in filter(None, map(bytes.split, lines)):
            last = words[0].lower()
            if last == b"vertex":
                x, y, z = words[1:]
                mesh.points.extend((float(x), float(y), float(z)))
            elif last == b"endfacet":
                facets += 1
                if len(mesh.points) != 9 * facets:
                    raise broken(f"triangle {facets} has not three corners")
        mesh.check_room()
    if last != b"endsolid" or len(mesh.points) != 9 * facets:
        raise cut_short('it does not end in "endsolid"')
    points = mesh.as_surface().points
    if facets > MOST_TRIANGLES:
        raise too_many_triangles()
    return Surface(points, np.arange(len(points), dtype=np.int64).reshape(-1, 3))
