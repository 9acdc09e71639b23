"""One model part of a .3mf: its objects with their triangles, and what its build lists."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from xml.parsers import expat

from boxfit.survey.raw import MOST_POINTS, MOST_TRIANGLES, RawMesh, broken

Named = tuple[str, str]
"""An object: the part it stands in, its id there."""
Place = tuple[float, ...]
"""Twelve numbers: the rows of a 4 by 3 matrix that a row (x, y, z, 1) is multiplied with."""
UNMOVED: Place = (1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0)
_LONGEST_TAG = 1 << 20
_MOST_TAGS = MOST_POINTS + MOST_TRIANGLES + 1_000_000
_DEEPEST = 100
MOST_PLACED = 10_000
"""Placed objects, however deep: more is a trap, not a scan."""


@dataclass
class Object:
    """Triangles of its own, other objects at their places, or both."""

    mesh: RawMesh = field(default_factory=RawMesh)
    components: list[tuple[Named, Place]] = field(default_factory=list)


@dataclass
class Part:
    """What one model part says; `unit` as it is written."""

    objects: dict[Named, Object] = field(default_factory=dict)
    build: list[tuple[Named, Place]] = field(default_factory=list)
    unit: str | None = None

    def other_files(self) -> set[str]:
        """The parts that hold objects which this one puts to use."""
        placed = [*self.build, *(use for each in self.objects.values() for use in each.components)]
        return {name for (name, _), _ in placed}


class _UnitFoundError(Exception):
    """The heading is read, the rest is not wanted."""


class _Listener:
    """Takes the tags of a part as they come."""

    def __init__(self, name: str, only_unit: bool) -> None:
        self.part = Part()
        self._name = name
        self._only_unit = only_unit
        self._object = Object()
        self._tags = 0
        self._depth = 0

    def ended(self, _: str) -> None:
        """The end of a tag."""
        self._depth -= 1

    def started(self, tag: str, said: dict[str, str]) -> None:
        """The beginning of a tag. Raises ValueError or KeyError for what it lacks."""
        self._tags += 1
        self._depth += 1
        if self._tags > _MOST_TAGS or self._depth > _DEEPEST:
            raise broken("it has more tags than a scan needs, or deeper ones")
        mesh = self._object.mesh
        match tag.rpartition(":")[2]:
            case "vertex":
                mesh.points.extend((float(said["x"]), float(said["y"]), float(said["z"])))
            case "triangle":
                mesh.add_polygon([int(said["v1"]), int(said["v2"]), int(said["v3"])])
            case "object":
                self._check_count(len(self.part.objects))
                self._object = self.part.objects.setdefault((self._name, said["id"]), Object())
            case "component":
                self._check_count(len(self._object.components))
                self._object.components.append(self._placed(said))
            case "item":
                self._check_count(len(self.part.build))
                self.part.build.append(self._placed(said))
            case "model":
                self.part.unit = said.get("unit")
                if self._only_unit:
                    raise _UnitFoundError

    def _check_count(self, count: int) -> None:
        if count >= MOST_PLACED:
            raise broken(f"it places more than {MOST_PLACED} objects")

    def _placed(self, said: dict[str, str]) -> tuple[Named, Place]:
        file = next((value for key, value in said.items() if key.rpartition(":")[2] == "path"), self._name)
        place = tuple(map(float, said["transform"].split())) if "transform" in said else UNMOVED
        if len(place) != 12:
            raise broken("a transform has not twelve numbers")
        return (file.strip("/").lower(), said["objectid"]), place


def part_in(chunks: Iterable[bytes], name: str, only_unit: bool = False) -> Part:
    """The part in these bytes. Raises SurveyError."""
    listener = _Listener(name, only_unit)
    parser = expat.ParserCreate()
    parser.StartElementHandler = listener.started
    parser.EndElementHandler = listener.ended
    parser.StartDoctypeDeclHandler = _refuse_definitions
    fed = 0
    try:
        for chunk in chunks:
            fed += len(chunk)
            parser.Parse(chunk, False)
            if fed - parser.CurrentByteIndex > _LONGEST_TAG + len(chunk):
                raise broken("a tag is a megabyte long")
        parser.Parse(b"", True)
    except _UnitFoundError:
        return listener.part
    except expat.ExpatError as fault:
        raise broken(f"its XML ends or goes wrong in line {fault.lineno}") from fault
    except (ValueError, KeyError, OverflowError) as fault:
        raise broken(f"a tag near line {parser.CurrentLineNumber} lacks a number or a name") from fault
    return listener.part


def _refuse_definitions(*_: object) -> None:
    raise broken("its XML defines entities, which no .3mf may")
