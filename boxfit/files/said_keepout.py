"""What a bay file said of what stays in it. Lengths [mm]; a key checked against another stands after it."""

from typing import Annotated, Literal

from pydantic import Field, ValidationInfo, field_validator

from boxfit.files.kinds import Allowance, Apart, FromTo, Name, Offsets, Phrase, Place, Size, wrong
from boxfit.files.said import Said, must_be_below_high
from boxfit.files.said_survey import SaidScan


class SaidTurns(Said):
    """A hinge from one place to another [mm], and the angles [degrees] turned about it, right-handed."""

    hinge: Apart
    by: FromTo


class SaidSolid(Said):
    """What is said of every keep-out: `moves` are the offsets [mm] it visits, in straight lines, in order."""

    kind: str
    name: Name
    clearance: Allowance = 0.0
    negotiable: bool = False
    reason: Phrase | None = None
    moves: Offsets | None = None
    turns: SaidTurns | None = None


class SaidBlockKeepout(SaidSolid):
    """A solid square to the axes [mm]."""

    kind: Literal["block"]
    high: Place
    low: Place

    @field_validator("low")
    @classmethod
    def _low_below_high(cls, low: list[float], info: ValidationInfo) -> list[float]:
        must_be_below_high(low, info)
        return low


class SaidCylinderKeepout(SaidSolid):
    """A round bar [mm]; `start` is written `from`, `end` is written `to`."""

    kind: Literal["cylinder"]
    start: Place = Field(alias="from")
    end: Place = Field(alias="to")
    diameter: Size

    @field_validator("end")
    @classmethod
    def _has_length(cls, end: list[float], info: ValidationInfo) -> list[float]:
        if end == info.data.get("start"):
            raise wrong(
                "must not be the same place as from: a bar has a length", "give the other end of the bar"
            )
        return end


class SaidMeshKeepout(SaidScan, SaidSolid):
    """A closed solid of triangles in a file of its own."""

    kind: Literal["mesh"]


SaidKeepout = Annotated[SaidBlockKeepout | SaidCylinderKeepout | SaidMeshKeepout, Field(discriminator="kind")]
