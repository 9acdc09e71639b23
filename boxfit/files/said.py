"""What a file said: the tables of a car file and of a box, nothing believed yet.

Keys and meanings are those of the contract; a field left without a default must be there. Lengths
[mm], masses [kg], volts [V].
"""

from typing import Annotated, ClassVar, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationInfo

from boxfit.files import bounds, examples
from boxfit.files.kinds import (
    Allowance,
    Mass,
    MaterialWord,
    Name,
    Names,
    Place,
    ProcessWord,
    ShapeWord,
    Sheet,
    VoltageWindow,
    listed,
    number,
    whole,
    wrong,
)
from boxfit.files.shown import shown

Relation = Literal["below", "not below"]
_SPOKEN: dict[Relation, str] = {"below": "be below", "not below": "not be below"}


class Said(BaseModel):
    """A table of a file: unknown keys and unlike types are refused."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True)


class SaidFile(Said):
    """A whole file; `samples` hold an example of every key it may have."""

    samples: ClassVar[tuple[examples.Table, ...]]


def must_be(relation: Relation, other: str, value: float, info: ValidationInfo) -> None:
    """Refuses the value unless it is so related to the key `other`, where that one was readable."""
    if other not in info.data:
        return
    against = info.data[other]
    if not (value < against if relation == "below" else value >= against):
        raise wrong(f"must {_SPOKEN[relation]} {other} {shown(against)}", f"correct this or {other}")


def must_be_below_high(low: list[float], info: ValidationInfo) -> None:
    """Refuses a low corner that is not below the high one along every axis."""
    high = info.data.get("high", ())
    axes = [axis for axis, least, most in zip("xyz", low, high, strict=False) if least >= most]
    if axes:
        raise wrong(
            f"must be below high {shown(high)} along {' and '.join(axes)}",
            f"swap low and high along {axes[0]}",
        )


class SaidTrack(Said):
    """Track widths [mm]."""

    front: Annotated[float, number(bounds.TRACK)]
    rear: Annotated[float, number(bounds.TRACK)]


class SaidWeighed(Said):
    """Readings of four scales [kg]; the height of the mass [mm]."""

    front_left: Mass
    front_right: Mass
    rear_left: Mass
    rear_right: Mass
    height_of_mass: Annotated[float, number(bounds.HEIGHT_OF_MASS)] | None = None


class SaidMass(Said):
    """Something of a mass [kg] at a place [mm]."""

    name: Name
    mass: Mass
    at: Place


class SaidTarget(Said):
    """The front share wanted [-]; `aboard` is written `with`."""

    front_share: Annotated[float, number(bounds.SHARE)]
    tolerance: Annotated[float, number(bounds.SHARE_TOLERANCE)]
    aboard: Names = Field(default=[], alias="with")


class SaidLimits(Said):
    """The maker's plate [kg]."""

    front_axle: Mass | None = None
    rear_axle: Mass | None = None
    gross: Mass | None = None


class SaidElectrics(Said):
    """Voltage windows [V], and whether a string may be parted among bays."""

    inverter_voltage: VoltageWindow
    charger_voltage: VoltageWindow | None = None
    string_in_one_bay: bool = False


class SaidBox(Said):
    """A [box] table of a car or a bay; what is left out is taken from elsewhere."""

    material: MaterialWord | None = None
    process: ProcessWord | None = None
    shape: ShapeWord | None = None
    thickness: Sheet | None = None
    bend_radius: Annotated[float, number(bounds.BEND_RADIUS)] | None = None
    flange: Allowance | None = None
    lid_thickness: Sheet | None = None
    clearance: Allowance | None = None
    liner: Allowance | None = None
    gap: Allowance | None = None
    headroom: Allowance | None = None
    tiers: Annotated[int, whole(bounds.TIERS)] | None = None
    boxes: Annotated[int, whole(bounds.BOXES)] | None = None


class SaidCar(SaidFile):
    """A car.toml."""

    samples = (examples.CAR,)

    name: Name
    bays: Annotated[Names, listed("a list of one or more bay files", 1, 100)]
    wheelbase: Annotated[float, number(bounds.WHEELBASE)]
    track: SaidTrack
    weighed: SaidWeighed | None = None
    fitted: list[SaidMass] = []
    carried: list[SaidMass] = []
    target: SaidTarget | None = None
    limits: SaidLimits = SaidLimits()
    electrics: SaidElectrics | None = None
    box: SaidBox | None = None
