"""What a module file said. Lengths [mm], mass [kg], energy [kWh], capacity [Ah], volts [V], amperes [A]."""

from typing import Annotated

from pydantic import Field, ValidationInfo, field_validator

from boxfit.files import bounds, examples
from boxfit.files.kinds import (
    Allowance,
    Amperes,
    Dimensions,
    FaceWord,
    HeldFaces,
    Mass,
    Name,
    Size,
    Volts,
    number,
    wrong,
)
from boxfit.files.said import Said, SaidFile, must_be
from boxfit.files.shown import shown
from boxfit.module import HELD_AT


class SaidSize(Said):
    """The body [mm]."""

    length: Size
    width: Size
    height: Size


class SaidVoltage(Said):
    """Volts [V] of one module."""

    empty: Volts
    nominal: Volts
    full: Volts

    @field_validator("nominal", "full")
    @classmethod
    def _not_below_empty(cls, volts: float, info: ValidationInfo) -> float:
        must_be("not below", "empty", volts, info)
        return volts

    @field_validator("full")
    @classmethod
    def _not_below_nominal(cls, full: float, info: ValidationInfo) -> float:
        must_be("not below", "nominal", full, info)
        return full


class SaidCurrent(Said):
    """Amperes [A] of one module."""

    continuous: Amperes
    peak: Amperes

    @field_validator("peak")
    @classmethod
    def _not_below_continuous(cls, peak: float, info: ValidationInfo) -> float:
        must_be("not below", "continuous", peak, info)
        return peak


class SaidRoom(Said):
    """Room [mm] kept clear at each face."""

    top: Allowance = 0.0
    bottom: Allowance = 0.0
    front: Allowance = 0.0
    back: Allowance = 0.0
    left: Allowance = 0.0
    right: Allowance = 0.0


class SaidHeld(Said):
    """The two faces along whose upper edges the module may be pressed down, and how far in [mm]."""

    at: HeldFaces = Field(default=list(HELD_AT[0]))
    width: Annotated[float, number(bounds.HELD_WIDTH)] = 12.0


class SaidModule(SaidFile):
    """A module file."""

    samples = (examples.MODULE,)

    name: Name
    size: SaidSize
    mass: Mass
    energy: Annotated[float, number(bounds.ENERGY)]
    capacity: Annotated[float, number(bounds.CAPACITY)]
    voltage: SaidVoltage
    room: SaidRoom = SaidRoom()
    room_shared: bool = False
    held: SaidHeld = SaidHeld()
    terminals: FaceWord | None = None
    up: Dimensions
    spacing: Allowance
    current: SaidCurrent | None = None

    @field_validator("held")
    @classmethod
    def _strips_do_not_meet(cls, held: SaidHeld, info: ValidationInfo) -> SaidHeld:
        """Each strip leaves more than half of the face that looks up to the other and to the terminals."""
        size = info.data.get("size")
        along = "length" if "front" in held.at else "width"
        if size is not None and 2.0 * held.width >= getattr(size, along):
            raise wrong(
                f"must leave something of the {along} {shown(getattr(size, along))} between its two strips"
                f" of width {shown(held.width)}",
                f"write for example: held = {{ at = {shown(list(held.at))}, width = 12 }}",
            )
        return held

    @field_validator("up")
    @classmethod
    def _stands_somewhere(cls, up: list[str], info: ValidationInfo) -> list[str]:
        """A face that needs room cannot be stood on, and nothing stands upside down on its height."""
        room = info.data.get("room", SaidRoom())
        under = {
            "height": room.bottom,
            "width": min(room.left, room.right),
            "length": min(room.front, room.back),
        }
        if all(under[dimension] > 0.0 for dimension in up):
            raise wrong(
                "leaves no face to stand on: each face that could be underneath needs room",
                "take the room off one such face, or let another dimension stand upright",
            )
        return up
