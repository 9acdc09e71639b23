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
    """Two places on the surface, [[x, y, z], [x, y, z]] [mm]."""
    taped: Annotated[float, number(bounds.TAPED)]
    """What the tape says between them [mm]."""


class SaidScan(Said):
    """A file of another program: its unit, and how it is turned [degrees] and then moved [mm]."""

    kind: str
    """What the file holds."""
    file: Name
    """The file, beside this one."""
    unit: Annotated[Unit, choice(get_args(Unit))]
    """What one of its units is."""
    move: Place = Field(default=[0.0, 0.0, 0.0])
    """How far it is moved after turning, [x, y, z] [mm]."""
    turn: Turn = Field(default=[0.0, 0.0, 0.0])
    """How far it is turned about x, then y, then z [degrees]."""


class SaidBlockSurvey(Said):
    """A room square to the axes [mm]."""

    kind: Literal["block"]
    """A room square to the car."""
    tolerance: Allowance
    """How far the measuring may be out [mm]."""
    high: Place
    """Front, left and upper corner, [x, y, z] [mm]."""
    low: Place
    """Rear, right and lower corner, [x, y, z] [mm]."""

    @field_validator("low")
    @classmethod
    def _low_below_high(cls, low: list[float], info: ValidationInfo) -> list[float]:
        must_be_below_high(low, info)
        return low


class SaidPrismSurvey(Said):
    """A room between two levels with an outline seen from above [mm]."""

    kind: Literal["prism"]
    """A room with upright walls, level floor and level top."""
    tolerance: Allowance
    """How far the measuring may be out [mm]."""
    outline: Outline
    """Its corners seen from above, each [x, y] [mm]."""
    top: Coordinate
    """Its upper end above the ground [mm]."""
    floor: Coordinate
    """Its floor above the ground [mm]."""

    @field_validator("floor")
    @classmethod
    def _floor_below_top(cls, floor: float, info: ValidationInfo) -> float:
        must_be("below", "top", floor, info)
        return floor


class SaidSection(Said):
    """The outline (y, z) [mm] of the room at one place along the car [mm]."""

    at: Coordinate
    """Where along the car the outline was taken, x [mm]."""
    outline: Outline
    """Its corners seen along the car, each [y, z] [mm]."""


class SaidSectionsSurvey(Said):
    """A room between sections across the car, joined straight from each to the next [mm]."""

    kind: Literal["sections"]
    """Outlines across the car, joined straight."""
    tolerance: Allowance
    """How far the measuring may be out [mm]."""
    section: Annotated[list[SaidSection], listed("a list of 2 to 200 sections", 2, 200)]
    """Two outlines or more, in order along the car."""
    reference: SaidReference | None = None
    """A distance taped in the car, to prove the survey by."""


class SaidMeshSurvey(SaidScan):
    """A scan: the surface of the room, or of the metal round it. Gaps and islands [mm]."""

    kind: Literal["mesh"]
    """A scan: .stl, .ply, .obj or .3mf."""
    tolerance: Allowance
    """How far the scan may be out [mm]."""
    reads: Annotated[Reading, choice(get_args(Reading))]
    """Whether it shows the room's own surface or the body's metal round it."""
    holes: Allowance = HOLES
    """Gaps up to this size are bridged, and told [mm]."""
    strays: Allowance = STRAYS
    """Loose islands up to this size are left out, and told [mm]."""
    reference: SaidReference | None = None
    """A distance taped in the car, to prove the scan by."""


class SaidStepSurvey(SaidScan):
    """A room drawn in another program as a solid."""

    kind: Literal["step"]
    """The room as one closed solid from a drawing program."""
    tolerance: Allowance
    """How far the drawing may be out [mm]."""
    reference: SaidReference | None = None
    """A distance taped in the car, to prove the drawing by."""


SaidSurface = SaidSectionsSurvey | SaidMeshSurvey | SaidStepSurvey
"""The surveys that come down to a surface of triangles."""
SaidSurvey = Annotated[SaidBlockSurvey | SaidPrismSurvey | SaidSurface, Field(discriminator="kind")]
