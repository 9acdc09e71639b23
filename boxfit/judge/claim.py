"""What a layout.json claims, read as strictly as the judge needs it and no further."""

from collections.abc import Mapping
from typing import Annotated, Self

from pydantic import BaseModel, Field, ValidationError, model_validator

from boxfit.judge.finding import Finding
from boxfit.module import Axis, Dimension

Number = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=-1e9, le=1e9)]
Count = Annotated[int, Field(strict=True, ge=0, le=1_000_000)]
Truth = Annotated[bool, Field(strict=True)]
Corner = tuple[Number, Number, Number]


class _Claim(BaseModel, frozen=True):
    """A table of layout.json; keys the judge does not know are left alone."""


class Extent(_Claim, frozen=True):
    """Two opposite corners [mm]; `high` lies above `low` along every axis."""

    low: Corner
    high: Corner

    @model_validator(mode="after")
    def _ordered(self) -> Self:
        if not all(low < high for low, high in zip(self.low, self.high, strict=True)):
            raise ValueError("high must exceed low along x, y and z")
        return self


class ClaimedFaces(_Claim, frozen=True):
    """The module's own face that looks forward, left and up."""

    x: str
    y: str
    z: str


class ClaimedModule(Extent, frozen=True):
    """A module body [mm] and how it is turned."""

    up: Dimension
    length_along: Axis
    faces: ClaimedFaces | None = None


class ClaimedTier(_Claim, frozen=True):
    """A level: what the modules stand on and how high they reach with their room [mm], and how many."""

    stands_on: Number
    height: Number
    count: Count


class ClaimedBox(_Claim, frozen=True):
    """A box and what is in it."""

    outside: Extent
    corners: Count = 4
    modules: Annotated[tuple[ClaimedModule, ...], Field(min_length=1)]
    tiers: tuple[ClaimedTier, ...] | None = None


class ClaimedBay(_Claim, frozen=True):
    """The boxes of one bay."""

    name: str
    boxes: tuple[ClaimedBox, ...]


class ClaimedWeights(_Claim, frozen=True):
    """Loads [kg], shares [-] and centre of mass [mm], as the target judges the car."""

    modules: Number
    boxes: Number
    front_axle: Number | None = None
    rear_axle: Number | None = None
    gross: Number | None = None
    front_share: Number | None = None
    left_share: Number | None = None
    centre_of_mass: tuple[Number, Number, Number | None] | None = None


class Claim(_Claim, frozen=True):
    """A whole layout."""

    car: str
    module: str
    count: Count
    series: Count
    parallel: Count
    energy: Number
    bound: Count
    proven: Truth
    target_met: Truth
    bays: tuple[ClaimedBay, ...]
    weights: ClaimedWeights


def read_claim(data: Mapping[str, object]) -> Claim | tuple[Finding, ...]:
    """The claim, or what makes it unreadable.

    >>> read_claim({})[0].place
    'car'
    """
    try:
        return Claim.model_validate(dict(data))
    except ValidationError as error:
        return tuple(
            Finding("malformed", ".".join(str(part) for part in problem["loc"]), problem["msg"])
            for problem in error.errors(include_url=False)
        )
