"""The kinds of value a file may hold, each refused with a sentence of its own."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from math import dist
from typing import Annotated, get_args

from pydantic import AfterValidator, Field, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from boxfit.bay import Process, Shape, Way
from boxfit.files import bounds
from boxfit.files.bounds import Bounds
from boxfit.files.near import did_you_mean
from boxfit.files.shown import shown
from boxfit.module import DIMENSIONS, FACES, HELD_AT, Dimension
from boxfit.standards.materials import BOX_MATERIALS

_LONGEST_NAME = 100
_LONGEST_PHRASE = 60
_LEAST_APART = 1.0
_ON_ONE_LINE = r"^(?=.*\S)[^\u0000-\u001f\u007f]+$"
"""Some letter and no line end or other sign of control, as JSON Schema has it."""


@dataclass(frozen=True)
class Kind:
    """What a value must be: the check that says so in a sentence, and the same in words of JSON Schema.

    The check runs before pydantic looks at the type; the words are what editors check by.
    """

    check: Callable[[object], object]
    words: Mapping[str, object] = field(hash=False)

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """For pydantic: the check before whatever else is asked."""
        return core_schema.no_info_before_validator_function(self.check, handler(source))

    def __get_pydantic_json_schema__(
        self, core: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, object]:
        """For pydantic: what it would say of the type, and the words added."""
        return {**handler(core), **self.words}


def wrong(rule: str, remedy: str = "") -> PydanticCustomError:
    """The error to raise in a validator; without a remedy the reader is shown an example."""
    return PydanticCustomError("told", "{rule}", {"rule": rule, "remedy": remedy})


def _within(value: object, believed: Bounds) -> float | None:
    """The value where it is a finite number within the bounds; true and false are no numbers."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    return float(value) if believed.low <= value <= believed.high else None


def number(believed: Bounds) -> Kind:
    """Accepts a finite number within the bounds, whole or not."""

    def check(value: object) -> float:
        if (found := _within(value, believed)) is None:
            raise wrong(f"must be a number {believed}")
        return found

    return Kind(check, _between(believed))


def whole(believed: Bounds) -> Kind:
    """Accepts a whole number within the bounds."""

    def check(value: object) -> int:
        if (found := _within(value, believed)) is None or not found.is_integer():
            raise wrong(f"must be a whole number {believed}")
        return int(found)

    return Kind(check, _between(believed))


def _between(believed: Bounds) -> dict[str, object]:
    return {"minimum": believed.low, "maximum": believed.high}


def choice(words: tuple[str, ...]) -> Kind:
    """Accepts one of the words."""

    def check(value: object) -> object:
        if value not in words:
            raise wrong(
                f"must be one of {', '.join(shown(word) for word in words)}", did_you_mean(value, words)
            )
        return value

    return Kind(check, {"enum": list(words)})


def listed(what: str, least: int, most: int) -> Kind:
    """Accepts a list of `least` to `most` entries, told to the reader as `what`."""

    def check(value: object) -> object:
        if not isinstance(value, list):
            raise wrong(f"must be {what}")
        if not least <= len(value) <= most:
            raise wrong(f"must be {what}: {len(value)} entries found")
        return value

    return Kind(check, {"minItems": least, "maxItems": most})


def _words(what: str, longest: int) -> Kind:
    """Accepts text that can be read on one line."""

    def check(value: object) -> str:
        if isinstance(value, str) and value.strip() and len(value) <= longest and value.isprintable():
            return value
        raise wrong(f"must be {what} of 1 to {longest} characters on one line, in quotes")

    return Kind(check, {"minLength": 1, "maxLength": longest, "pattern": _ON_ONE_LINE})


def _no_repeats(words: list[str]) -> list[str]:
    repeated = [word for place, word in enumerate(words) if word in words[:place]]
    if repeated:
        raise wrong(
            f"must name nothing twice: {shown(repeated[0])} is repeated", f"leave one {repeated[0]} out"
        )
    return words


def _held(faces: object) -> object:
    if not isinstance(faces, list) or not any(faces in (list(pair), list(pair[::-1])) for pair in HELD_AT):
        raise wrong(
            f"must be {' or '.join(shown(list(pair)) for pair in HELD_AT)}",
            "name two faces that are opposite",
        )
    return faces


def _rising(window: list[float]) -> list[float]:
    if window[0] >= window[1]:
        raise wrong("must be [low, high] with low below high")
    return window


def _turning(angles: list[float]) -> list[float]:
    if angles[0] >= angles[1]:
        raise wrong("must be [from, to] with from below to", "swap the two")
    return angles


def _apart(places: list[list[float]]) -> list[list[float]]:
    if dist(*places) < _LEAST_APART:
        raise wrong(f"must be two places at least {_LEAST_APART:.0f} mm apart")
    return places


def _outline(points: list[list[float]]) -> list[list[float]]:
    from boxfit.files.outline import fault

    if found := fault([(x, y) for x, y in points]):
        raise wrong(*found)
    return points


_UNLIKE = Field(json_schema_extra={"uniqueItems": True})
Name = Annotated[str, _words("a name", _LONGEST_NAME)]
Phrase = Annotated[str, _words("a short phrase", _LONGEST_PHRASE)]
Coordinate = Annotated[float, number(bounds.COORDINATE)]
Place = Annotated[list[Coordinate], listed("three numbers [x, y, z]", 3, 3)]
Apart = Annotated[list[Place], AfterValidator(_apart), listed("two places [[x, y, z], [x, y, z]]", 2, 2)]
Offsets = Annotated[list[Place], listed("a list of 1 to 100 offsets [x, y, z]", 1, 100)]
Angle = Annotated[float, number(bounds.ANGLE)]
Turn = Annotated[list[Angle], listed("three angles [about x, about y, about z]", 3, 3)]
FromTo = Annotated[list[Angle], AfterValidator(_turning), listed("two angles [from, to]", 2, 2)]
FlatPoint = Annotated[list[Coordinate], listed("two numbers [a, b]", 2, 2)]
Outline = Annotated[list[FlatPoint], AfterValidator(_outline), listed("a list of 3 to 1000 points", 3, 1000)]
Size = Annotated[float, number(bounds.SIZE)]
Mass = Annotated[float, number(bounds.MASS)]
Allowance = Annotated[float, number(bounds.ALLOWANCE)]
Sheet = Annotated[float, number(bounds.SHEET)]
Volts = Annotated[float, number(bounds.VOLTAGE)]
Amperes = Annotated[float, number(bounds.CURRENT)]
Price = Annotated[float, number(bounds.PRICE)]
VoltageWindow = Annotated[
    list[Annotated[float, number(bounds.WINDOW)]],
    AfterValidator(_rising),
    listed("two numbers [low, high]", 2, 2),
]
WayWord = Annotated[Way, choice(get_args(Way))]
ProcessWord = Annotated[Process, choice(get_args(Process))]
ShapeWord = Annotated[Shape, choice(get_args(Shape))]
BOLTS = {"M6": 6.0, "M8": 8.0, "M10": 10.0, "M12": 12.0}
"""The threads [mm] that a mount may have."""
BoltWord = Annotated[str, choice(tuple(BOLTS))]
MaterialWord = Annotated[str, choice(BOX_MATERIALS)]
DimensionWord = Annotated[Dimension, choice(DIMENSIONS)]
Dimensions = Annotated[
    list[DimensionWord],
    AfterValidator(_no_repeats),
    listed("a list of one to three dimensions", 1, 3),
    _UNLIKE,
]
FaceWord = Annotated[str, choice(tuple(face for pair in FACES for face in pair))]
HeldFaces = Annotated[
    list[str], Kind(_held, {"enum": [list(way) for pair in HELD_AT for way in (pair, pair[::-1])]})
]
Names = Annotated[list[Name], AfterValidator(_no_repeats), _UNLIKE]
