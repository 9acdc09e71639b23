"""What an electrics.json claims, read as strictly as the judge needs it and no further."""

from collections.abc import Mapping
from typing import Annotated

from pydantic import BaseModel, Field, ValidationError

from boxfit.judge.claim import Corner, Number
from boxfit.judge.finding import Finding

Count = Annotated[int, Field(strict=True, ge=1)]


class _Told(BaseModel, frozen=True):
    """A table of electrics.json; keys the judge does not know are left alone."""


class ToldString(_Told, frozen=True):
    """Module numbers from minus to plus."""

    modules: tuple[Count, ...]


class ToldModule(_Told, frozen=True):
    """A module and where it is connected [mm]."""

    number: Count
    terminals: Corner


class ToldTouching(_Told, frozen=True):
    """Two touching modules and the volts [V] between like terminals and between any live parts."""

    modules: tuple[Count, ...]
    volts: Number
    volts_live_parts: Number


class ToldVolts(_Told, frozen=True):
    """Of a string [V]."""

    empty: Number
    full: Number


class ToldSize(_Told, frozen=True):
    """Of the main cables: outside diameter and inside of bends [mm]."""

    across: Number
    inside_bend: Number


class ToldCable(_Told, frozen=True):
    """A link cable: its corners and its length [mm], none where no way was found."""

    name: str
    points: tuple[Corner, ...] = ()
    length: Number | None = None


class ToldElectrics(_Told, frozen=True):
    """All of it."""

    series: Count
    parallel: Count
    junction: Corner
    link: Number
    strings: tuple[ToldString, ...]
    modules: tuple[ToldModule, ...]
    touching: ToldTouching
    volts: ToldVolts
    cable: ToldSize
    cables: tuple[ToldCable, ...]


def read_electrics(data: Mapping[str, object]) -> ToldElectrics | tuple[Finding, ...]:
    """The claim, or what makes it unreadable.

    >>> read_electrics({})[0].place
    'series'
    """
    try:
        return ToldElectrics.model_validate(dict(data))
    except ValidationError as error:
        return tuple(
            Finding("malformed", ".".join(str(part) for part in problem["loc"]), problem["msg"])
            for problem in error.errors(include_url=False)
        )
