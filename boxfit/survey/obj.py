"""Reads .obj: points and polygons. Materials, pictures and all else it names are not looked at."""

from typing import BinaryIO

from boxfit.surface import Surface
from boxfit.survey.raw import RawMesh, blocks_of_lines, broken


def read_obj(file: BinaryIO) -> Surface:
    """The triangles of an open file. Raises SurveyError, or ValueError for a wrong number."""
    mesh = RawMesh()
    for lines in blocks_of_lines(file):
        for line in lines:
            _take(line.split(), mesh)
        mesh.check_room()
    return mesh.as_surface()


def _take(words: list[bytes], mesh: RawMesh) -> None:
    if not words:
        return
    if words[0] in {b"v", b"f"} and words[-1].endswith(b"\\"):
        raise broken("a point or a face goes on over the end of its line")
    if words[0] == b"v":
        if len(words) < 4:
            raise broken("a point has fewer than three numbers")
        mesh.points.extend((float(words[1]), float(words[2]), float(words[3])))
    elif words[0] == b"f":
        if len(words) < 4:
            raise broken("a face has fewer than three corners")
        mesh.add_polygon([_corner(word, len(mesh.points) // 3) for word in words[1:]])


def _corner(word: bytes, points: int) -> int:
    """The point, from 0; the file counts from 1, or backwards from the last point so far."""
    number = int(word.partition(b"/")[0])
    if number == 0 or number < -points:
        raise broken(f"a face names point {number}")
    return number - 1 if number > 0 else points + number
