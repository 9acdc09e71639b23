"""What a layout.json claims, read as strictly as the judge needs it and no further."""

from collections.abc import Mapping
from typing import Annotated, Self, TypeVar

from pydantic import BaseModel, Field, ValidationError, model_validator

from boxfit.judge.finding import Finding
from boxfit.module import Axis, Dimension

Number = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=-1e9, le=1e9)]
Count = Annotated[int, Field(strict=True, ge=0, le=1_000_000)]
Truth = Annotated[bool, Field(strict=True)]
Line = Annotated[str, Field(strict=True, min_length=1)]
Place = tuple[Number, Number]
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
    """A level: what the modules stand on and how high they reach with their room [mm], and how many.

    `outline` [mm] goes round the outside of the walls; empty where it is the box's own rectangle.
    """

    stands_on: Number
    height: Number
    count: Count
    outline: tuple[Place, ...] = ()


class ClaimedBox(_Claim, frozen=True):
    """A box and what is in it."""

    outside: Extent
    corners: Count = 4
    modules: Annotated[tuple[ClaimedModule, ...], Field(min_length=1)]
    tiers: tuple[ClaimedTier, ...] | None = None

    @property
    def outlines(self) -> tuple[tuple[Place, ...], ...]:
        """The outline told for each tier, lowest first; none where no tier tells one."""
        told = tuple(tier.outline for tier in self.tiers or ())
        return told if any(told) else ()


class ClaimedBay(_Claim, frozen=True):
    """The boxes of one bay."""

    name: str
    boxes: tuple[ClaimedBox, ...]

    @property
    def placed(self) -> int:
        """How many modules stand in its boxes."""
        return sum(len(box.modules) for box in self.boxes)


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


class ClaimedReserve(_Claim, frozen=True):
    """A mass [kg] at a place [mm] kept for what is fixed to boxes, or for link cables."""

    name: Line
    mass: Annotated[Number, Field(gt=0.0)]
    at: Corner


class ClaimedPack(_Claim, frozen=True):
    """What a layout and each of its alternatives tell alike: the pack, where it is and what it weighs."""

    count: Count
    series: Count
    parallel: Count
    energy: Number
    bound: Count
    proven: Truth
    target_met: Truth
    bays: tuple[ClaimedBay, ...]
    weights: ClaimedWeights
    reserve: tuple[ClaimedReserve, ...] = ()

    @property
    def placed(self) -> int:
        """How many modules stand in all boxes."""
        return sum(bay.placed for bay in self.bays)


class ClaimedAlternative(ClaimedPack, frozen=True):
    """Another layout: what it is, and how it differs."""

    what: Line
    difference: Line


class Claim(ClaimedPack, frozen=True):
    """A whole layout."""

    car: str
    module: str
    alternatives: tuple[ClaimedAlternative, ...] = ()


Read = TypeVar("Read", bound=_Claim)


def read_claim(data: Mapping[str, object]) -> Claim | tuple[Finding, ...]:
    """The claim, or what makes it unreadable.

    >>> read_claim({})[0].place
    'count'
    """
    return _read(Claim, data)


def read_alternative(data: Mapping[str, object]) -> ClaimedAlternative | tuple[Finding, ...]:
    """One table of `alternatives`, or what makes it unreadable.

    >>> read_alternative({})[-1].place
    'difference'
    """
    return _read(ClaimedAlternative, data)


def _read(kind: type[Read], data: Mapping[str, object]) -> Read | tuple[Finding, ...]:
    """A table of some kind, or what makes it unreadable."""
    try:
        return kind.model_validate(dict(data))
    except ValidationError as error:
        return tuple(
            Finding("malformed", ".".join(str(part) for part in problem["loc"]), problem["msg"])
            for problem in error.errors(include_url=False)
        )
