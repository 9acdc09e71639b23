"""What a fittings.json claims, read as strictly as the judge needs it and no further."""

from collections.abc import Mapping
from typing import Annotated, Literal

from pydantic import BaseModel, Field, ValidationError

from boxfit.judge.claim import Corner, Extent, Number, Place
from boxfit.judge.finding import Finding

Looks = Literal["front", "rear", "left", "right", "up", "down"]
FACES: dict[Looks, tuple[int, int]] = {
    "front": (0, 1),
    "rear": (0, -1),
    "left": (1, 1),
    "right": (1, -1),
    "up": (2, 1),
    "down": (2, -1),
}
"""The axis a face looks along, and whether up or down that axis."""


class _Told(BaseModel, frozen=True):
    """A table of fittings.json; keys the judge does not know are left alone."""


class ToldBought(_Told, frozen=True):
    """A bought part: body and room kept free [mm]."""

    kind: str
    name: str
    looks: Looks
    at: Corner
    body: Extent
    keeps: Extent


class ToldLeg(_Told, frozen=True):
    """The way a leg runs and how long it is outside [mm]."""

    way: Looks
    length: Annotated[float, Field(strict=True, gt=0.0, le=1e6)]


class ToldHole(_Told, frozen=True):
    """A hole in a leg [mm]."""

    leg: Annotated[int, Field(strict=True, ge=0)]
    along: Number
    across: Number
    diameter: Number


class ToldStrip(_Told, frozen=True):
    """A folded strip [mm]."""

    kind: str
    name: str
    thickness: Number
    start: Corner
    along: Looks
    width: Number
    legs: Annotated[tuple[ToldLeg, ...], Field(min_length=1)]
    inwards: Looks
    holes: tuple[ToldHole, ...] = ()
    rounded: Number = 0.0


class ToldCutout(_Told, frozen=True):
    """A hole through wall or floor [mm]."""

    what: str
    looks: Looks
    at: Corner
    diameter: Number
    size: Place


class ToldBox(_Told, frozen=True):
    """What is fixed to one box."""

    bay: str
    number: Annotated[int, Field(strict=True, ge=1)]
    name: str
    bought: tuple[ToldBought, ...] = ()
    strips: tuple[ToldStrip, ...] = ()
    cutouts: tuple[ToldCutout, ...] = ()
    notes: tuple[str, ...] = ()


class ToldFittings(_Told, frozen=True):
    """All boxes."""

    boxes: tuple[ToldBox, ...]


def read_fittings(data: Mapping[str, object]) -> ToldFittings | tuple[Finding, ...]:
    """The claim, or what makes it unreadable.

    >>> read_fittings({})[0].place
    'boxes'
    """
    try:
        return ToldFittings.model_validate(dict(data))
    except ValidationError as error:
        return tuple(
            Finding("malformed", ".".join(str(part) for part in problem["loc"]), problem["msg"])
            for problem in error.errors(include_url=False)
        )
