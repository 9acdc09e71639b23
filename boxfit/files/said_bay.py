"""What a bay file said. Lengths [mm]; a key checked against another stands after it."""

from typing import Annotated, Literal

from pydantic import Field, ValidationInfo, field_validator

from boxfit.files import examples
from boxfit.files.kinds import Allowance, Coordinate, Name, Outline, Place, Size, WayWord, wrong
from boxfit.files.said import Said, SaidBox, SaidFile, must_be, must_be_below_high


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


class SaidBlockKeepout(Said):
    """A solid square to the axes [mm]."""

    kind: Literal["block"]
    name: Name
    high: Place
    low: Place
    clearance: Allowance = 0.0
    negotiable: bool = False

    @field_validator("low")
    @classmethod
    def _low_below_high(cls, low: list[float], info: ValidationInfo) -> list[float]:
        must_be_below_high(low, info)
        return low


class SaidCylinderKeepout(Said):
    """A round bar [mm]; `start` is written `from`, `end` is written `to`."""

    kind: Literal["cylinder"]
    name: Name
    start: Place = Field(alias="from")
    end: Place = Field(alias="to")
    diameter: Size
    clearance: Allowance = 0.0
    negotiable: bool = False

    @field_validator("end")
    @classmethod
    def _has_length(cls, end: list[float], info: ValidationInfo) -> list[float]:
        if end == info.data.get("start"):
            raise wrong(
                "must not be the same place as from: a bar has a length", "give the other end of the bar"
            )
        return end


SaidSurvey = Annotated[SaidBlockSurvey | SaidPrismSurvey, Field(discriminator="kind")]
SaidKeepout = Annotated[SaidBlockKeepout | SaidCylinderKeepout, Field(discriminator="kind")]


class SaidOpening(Said):
    """The side a box comes in from, and the hole [mm] where it is smaller than the bay."""

    way: WayWord
    outline: Outline | None = None


class SaidBay(SaidFile):
    """A bay file."""

    samples = (examples.PRISM_BAY, examples.BLOCK_BAY)

    name: Name
    survey: SaidSurvey
    opening: SaidOpening | None = None
    keepout: list[SaidKeepout] = Field(default_factory=list)
    box: SaidBox | None = None
