"""What a bay file said of what stays in it. Lengths [mm]; a key checked against another stands after it."""

from typing import Annotated, Literal

from pydantic import Field, ValidationInfo, field_validator

from boxfit.files.kinds import Allowance, Apart, FromTo, Name, Offsets, Phrase, Place, Size, wrong
from boxfit.files.said import Said, must_be_below_high
from boxfit.files.said_survey import SaidScan


class SaidTurns(Said):
    """A hinge from one place to another [mm], and the angles [degrees] turned about it, right-handed."""

    hinge: Apart
    """Two places on the hinge's line, [[x, y, z], [x, y, z]] [mm]."""
    by: FromTo
    """From which angle to which it turns, right-handed [degrees]."""


class SaidSolid(Said):
    """What is said of every keep-out: `moves` are the offsets [mm] it visits, in straight lines, in order."""

    kind: str
    """Shape of what stays."""
    name: Name
    """What it is."""
    clearance: Allowance = 0.0
    """What the box keeps from it, where that is more than its own [mm]."""
    negotiable: bool = False
    """Whether it could go, at a price worth knowing."""
    reason: Phrase | None = None
    """Why it keeps its distance: moving, hot, or your own word."""
    moves: Offsets | None = None
    """Offsets it visits from where it is drawn, each [x, y, z] [mm]."""
    turns: SaidTurns | None = None
    """The hinge it swings about."""


class SaidBlockKeepout(SaidSolid):
    """A solid square to the axes [mm]."""

    kind: Literal["block"]
    """A block square to the car."""
    high: Place
    """Its front, left and upper corner, [x, y, z] [mm]."""
    low: Place
    """Its rear, right and lower corner, [x, y, z] [mm]."""

    @field_validator("low")
    @classmethod
    def _low_below_high(cls, low: list[float], info: ValidationInfo) -> list[float]:
        must_be_below_high(low, info)
        return low


class SaidCylinderKeepout(SaidSolid):
    """A round bar [mm]; `start` is written `from`, `end` is written `to`."""

    kind: Literal["cylinder"]
    """A round bar, or a wheel."""
    start: Place = Field(alias="from")
    """Middle of one end, [x, y, z] [mm]."""
    end: Place = Field(alias="to")
    """Middle of the other end, [x, y, z] [mm]."""
    diameter: Size
    """Across it [mm]."""

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
    """A closed solid of triangles in a file of its own."""


SaidKeepout = Annotated[SaidBlockKeepout | SaidCylinderKeepout | SaidMeshKeepout, Field(discriminator="kind")]
