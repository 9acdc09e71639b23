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
    Price,
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
    """From back to front [mm]."""
    width: Size
    """From right to left [mm]."""
    height: Size
    """From bottom to top [mm]."""


class SaidVoltage(Said):
    """Volts [V] of one module."""

    empty: Volts
    """When empty [V]."""
    nominal: Volts
    """As stated [V]."""
    full: Volts
    """When full [V]."""

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
    """All the time [A]."""
    peak: Amperes
    """For a moment [A]."""

    @field_validator("peak")
    @classmethod
    def _not_below_continuous(cls, peak: float, info: ValidationInfo) -> float:
        must_be("not below", "continuous", peak, info)
        return peak


class SaidRoom(Said):
    """Room [mm] kept clear at each face."""

    top: Allowance = 0.0
    """Above it [mm]."""
    bottom: Allowance = 0.0
    """Under it [mm]."""
    front: Allowance = 0.0
    """Before the front end of its length [mm]."""
    back: Allowance = 0.0
    """Behind the back end of its length [mm]."""
    left: Allowance = 0.0
    """At the left end of its width [mm]."""
    right: Allowance = 0.0
    """At the right end of its width [mm]."""


class SaidHeld(Said):
    """The two faces along whose upper edges the module may be pressed down, and how far in [mm]."""

    at: HeldFaces = Field(default=list(HELD_AT[0]))
    """The two opposite faces along whose upper edges it may be pressed."""
    width: Annotated[float, number(bounds.HELD_WIDTH)] = 12.0
    """How far in from each edge [mm]."""


class SaidModule(SaidFile):
    """A module file."""

    samples = (examples.MODULE,)

    name: Name
    """What the module is called."""
    size: SaidSize
    """Its body, terminals and flanges apart."""
    mass: Mass
    """What it weighs [kg]."""
    energy: Annotated[float, number(bounds.ENERGY)]
    """What it holds [kWh]."""
    capacity: Annotated[float, number(bounds.CAPACITY)]
    """Its capacity [Ah]."""
    voltage: SaidVoltage
    """Across its terminals."""
    room: SaidRoom = SaidRoom()
    """What is kept clear of everything at its faces."""
    room_shared: bool = False
    """Whether two that look at each other keep one room between them."""
    held: SaidHeld = SaidHeld()
    """Where bars may press it down; ask its maker."""
    terminals: FaceWord | None = None
    """The face in whose middle they sit."""
    up: Dimensions
    """Which of its dimensions may stand upright."""
    spacing: Allowance
    """To the next module [mm]."""
    current: SaidCurrent | None = None
    """What it may give."""
    price: Price | None = None
    """Of one module, in the money of all prices; for boxfit compare."""

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
