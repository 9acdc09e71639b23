"""The heading of a .ply: which elements follow, how many of each, and their columns."""

from dataclasses import dataclass
from typing import BinaryIO

from boxfit.survey.raw import (
    MOST_POINTS,
    MOST_TRIANGLES,
    broken,
    cut_short,
    too_many_points,
    too_many_triangles,
)

_KINDS = {
    **{"char": "b", "uchar": "B", "short": "h", "ushort": "H", "int": "i", "uint": "I", "float": "f"},
    **{"int8": "b", "uint8": "B", "int16": "h", "uint16": "H", "int32": "i", "uint32": "I", "int64": "q"},
    **{"uint64": "Q", "float32": "f", "float64": "d", "double": "d"},
}
"""Names of number types and their letters, alike in struct and numpy."""
_ORDERS = {"ascii": "", "binary_little_endian": "<", "binary_big_endian": ">"}
_LONGEST_LINE = 10_000
_MOST_LINES = 1_000


@dataclass(frozen=True)
class Column:
    """One number of each row, of the type `kind`; a list where `counted` tells the type of its length."""

    name: str
    kind: str
    counted: str | None = None


@dataclass(frozen=True)
class Element:
    """Rows of one sort."""

    name: str
    count: int
    columns: tuple[Column, ...]

    def column(self, *names: str) -> int:
        """The place of the column of one of these names. Raises SurveyError where there is none."""
        for place, column in enumerate(self.columns):
            if column.name in names:
                return place
        raise broken(f"its {self.name} rows have no {names[0]}")

    @property
    def corners(self) -> int:
        """The place of the column that lists a face's corners. Raises SurveyError where there is none."""
        place = self.column("vertex_indices", "vertex_index")
        if self.columns[place].counted is None or self.columns[place].kind in "fd":
            raise broken("its faces do not list the numbers of their corners")
        return place

    @property
    def has_lists(self) -> bool:
        """Whether rows may differ in length."""
        return any(column.counted for column in self.columns)


def read_heading(file: BinaryIO) -> tuple[str, tuple[Element, ...]]:
    """Byte order ("<" or ">", "" for text) and the elements up to the faces. Raises SurveyError."""
    order: str | None = None
    elements: list[Element] = []
    for _ in range(_MOST_LINES):
        line = file.readline(_LONGEST_LINE)
        if not line:
            raise cut_short('its heading has no "end_header"')
        words = line.decode("ascii", "replace").split()
        match words:
            case ["end_header"]:
                return _checked(order, elements)
            case ["format", kind, *_]:
                order = _ORDERS.get(kind)
            case ["element", name, count]:
                elements.append(Element(name, _count(count), ()))
            case ["property", *column] if elements:
                last = elements[-1]
                elements[-1] = Element(last.name, last.count, (*last.columns, _column(column)))
    raise broken('its heading has no "end_header"')


def _count(word: str) -> int:
    if not word.isdecimal() or len(word) > 18:
        raise broken(f"its heading counts {word[:20]} rows")
    return int(word)


def _column(words: list[str]) -> Column:
    match words:
        case ["list", counted, kind, name] if kind in _KINDS and _KINDS.get(counted, "f") not in "fd":
            return Column(name, _KINDS[kind], _KINDS[counted])
        case [kind, name] if kind in _KINDS:
            return Column(name, _KINDS[kind])
    raise broken(f'its heading has a column "{" ".join(words)[:40]}"')


def _checked(order: str | None, elements: list[Element]) -> tuple[str, tuple[Element, ...]]:
    if order is None:
        raise broken("its heading tells no known format")
    names = [element.name for element in elements]
    if sorted(name for name in names if name in {"vertex", "face"}) != ["face", "vertex"]:
        raise broken("it must have points and faces, each once")
    if elements[names.index("face")].count > MOST_TRIANGLES:
        raise too_many_triangles()
    if elements[names.index("vertex")].count > MOST_POINTS:
        raise too_many_points()
    return order, tuple(elements[: max(names.index("vertex"), names.index("face")) + 1])
