"""What a bay file said of its survey. Lengths [mm]; a key checked against another stands after it."""

from typing import Annotated, Literal, get_args

from pydantic import Field, ValidationInfo, field_validator

from boxfit.files import bounds
from boxfit.files.kinds import (
    Allowance,
    Apart,
    Coordinate,
    Name,
    Outline,
    Place,
    Turn,
    choice,
    listed,
    number,
)
from boxfit.files.said import Said, must_be, must_be_below_high
from boxfit.surface import Reading

Unit = Literal["mm", "cm", "m", "in"]

HOLES = 30.0
"""Gaps [mm] in a scan up to this size are bridged. Common practice, no source."""
STRAYS = 20.0
"""Loose islands [mm] of a scan no larger than this are left out. Common practice, no source."""


class SaidReference(Said):
    """Two places on the surface [mm] and the distance [mm] taped between them, to prove the survey by."""

    between: Apart
    taped: Annotated[float, number(bounds.TAPED)]


class SaidScan(Said):
    """A file of another program: its unit, and how it is turned [degrees] and then moved [mm]."""

    kind: str
    file: Name
    unit: Annotated[Unit, choice(get_args(Unit))]
    move: Place = Field(default=[0.0, 0.0, 0.0])
    turn: Turn = Field(default=[0.0, 0.0, 0.0])


class SaidBlockSurvey(Said):
    """A room square to the axes [mm]."""

    kind: Literal["block"]
    tolerance: Allowance
    high: Place
    low: Place

    @field_validator("low")
    @classmethod
    def _low_below_high(cls, low: list[float], info: ValidationInfo) -> list[float]:
        must_be_below_high(low, info)
        return low


class SaidPrismSurvey(Said):
    """A room between two levels with an outline seen from above [mm]."""

    kind: Literal["prism"]
    tolerance: Allowance
    outline: Outline
    top: Coordinate
    floor: Coordinate

    @field_validator("floor")
    @classmethod
    def _floor_below_top(cls, floor: float, info: ValidationInfo) -> float:
        must_be("below", "top", floor, info)
        return floor


class SaidSection(Said):
    """The outline (y, z) [mm] of the room at one place along the car [mm]."""

    at: Coordinate
    outline: Outline


class SaidSectionsSurvey(Said):
    """A room between sections across the car, joined straight from each to the next [mm]."""

    kind: Literal["sections"]
    tolerance: Allowance
    section: Annotated[list[SaidSection], listed("a list of 2 to 200 sections", 2, 200)]
    reference: SaidReference | None = None


class SaidMeshSurvey(SaidScan):
    """A scan: the surface of the room, or of the metal round it. Gaps and islands [mm]."""

    kind: Literal["mesh"]
    tolerance: Allowance
    reads: Annotated[Reading, choice(get_args(Reading))]
    holes: Allowance = HOLES
    strays: Allowance = STRAYS
    reference: SaidReference | None = None


class SaidStepSurvey(SaidScan):
    """A room drawn in another program as a solid."""

    kind: Literal["step"]
    tolerance: Allowance
    reference: SaidReference | None = None


SaidSurface = SaidSectionsSurvey | SaidMeshSurvey | SaidStepSurvey
"""The surveys that come down to a surface of triangles."""
SaidSurvey = Annotated[SaidBlockSurvey | SaidPrismSurvey | SaidSurface, Field(discriminator="kind")]
