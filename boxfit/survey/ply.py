"""Reads .ply, binary or text: points and polygons, after a heading that tells the columns."""

from collections.abc import Iterator
from itertools import islice
from typing import BinaryIO

from boxfit.surface import Surface
from boxfit.survey.ply_binary import read_binary
from boxfit.survey.ply_heading import Element, read_heading
from boxfit.survey.raw import RawMesh, blocks_of_lines, broken, cut_short


def read_ply(file: BinaryIO) -> Surface:
    """The triangles of an open file. Raises SurveyError, or ValueError for a wrong number."""
    order, elements = read_heading(file)
    return read_binary(file.read(), order, elements) if order else _text(file, elements)


def _text(file: BinaryIO, elements: tuple[Element, ...]) -> Surface:
    mesh = RawMesh()
    rows = (words for lines in blocks_of_lines(file) for words in map(bytes.split, lines) if words)
    for element in elements:
        if not element.columns:
            continue
        taken = 0
        for words in islice(rows, element.count):
            _take(element, words, mesh)
            taken += 1
        if taken < element.count:
            raise cut_short(f"it has {taken} of its {element.count} {element.name} rows")
    return mesh.as_surface()


def _take(element: Element, words: list[bytes], mesh: RawMesh) -> None:
    if element.name == "vertex":
        values = [part[0] for part in _parts(element, words)]
        mesh.points.extend(float(values[element.column(axis)]) for axis in "xyz")
    elif element.name == "face":
        corners = element.corners
        mesh.add_polygon([int(word) for word in next(islice(_parts(element, words), corners, None))])


def _parts(element: Element, words: list[bytes]) -> Iterator[list[bytes]]:
    """The words of each column of a row."""
    place = 0
    for column in element.columns:
        length = 1
        if column.counted is not None:
            length = int(words[place]) if place < len(words) else -1
            place += 1
        part = words[place : place + length] if length >= 0 else []
        if length < 0 or len(part) < length:
            raise broken(f"a {element.name} row has too few numbers")
        yield part
        place += length
