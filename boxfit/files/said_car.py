"""What a car file said, nothing believed yet. Lengths [mm], masses [kg], volts [V]."""

from typing import Annotated, get_args

from pydantic import Field

from boxfit.car import USUAL_SCALE, Axle
from boxfit.files import bounds, examples
from boxfit.files.kinds import Mass, Name, Names, Place, VoltageWindow, choice, listed, number
from boxfit.files.said import Said, SaidFile
from boxfit.files.said_box import SaidBox
from boxfit.files.said_module import SaidCurrent
from boxfit.files.said_retention import SaidRetention
from boxfit.files.said_shops import SaidFoldShop, SaidPrintShop, SaidTolerances


class SaidTrack(Said):
    """Track widths [mm]."""

    front: Annotated[float, number(bounds.TRACK)]
    """From the middle of one front tyre to that of the other [mm]."""
    rear: Annotated[float, number(bounds.TRACK)]
    """The same at the rear [mm]."""


class SaidRaised(Said):
    """The car with one axle raised [mm]: what the other axle then reads [kg]; radius of its wheels [mm]."""

    axle: Annotated[Axle, choice(get_args(Axle))]
    """Which axle is raised; springs locked, brakes off."""
    height: Annotated[float, number(bounds.RAISE)]
    """How far its wheels stand above the other's [mm]."""
    load: Mass
    """What both scales under the other axle then read together [kg]."""
    wheel_radius: Annotated[float, number(bounds.WHEEL_RADIUS)]
    """Of the loaded wheels, from axle to ground [mm]."""


class SaidWeighed(Said):
    """Readings of four scales [kg]; the height of the mass [mm].

    Axles and gross as a weighbridge read them [kg] must agree; one reading may be out by `scale_error` [kg].
    """

    front_left: Mass
    """Under the front left wheel [kg]."""
    front_right: Mass
    """Under the front right wheel [kg]."""
    rear_left: Mass
    """Under the rear left wheel [kg]."""
    rear_right: Mass
    """Under the rear right wheel [kg]."""
    height_of_mass: Annotated[float, number(bounds.HEIGHT_OF_MASS)] | None = None
    """Of the car's centre of mass above the ground [mm]."""
    front_axle: Mass | None = None
    """What a weighbridge read under the front axle [kg]."""
    rear_axle: Mass | None = None
    """What a weighbridge read under the rear axle [kg]."""
    gross: Mass | None = None
    """What a weighbridge read of the whole car [kg]."""
    scale_error: Annotated[float, number(bounds.SCALE_ERROR)] = USUAL_SCALE
    """What one reading may be out, plus or minus [kg]."""
    raised: SaidRaised | None = None
    """One more weighing with an axle raised, for the height of the mass."""


class SaidMass(Said):
    """Something of a mass [kg] at a place [mm]."""

    name: Name
    """What it is."""
    mass: Mass
    """What it weighs [kg]."""
    at: Place
    """Where its middle lies, [x, y, z] [mm]."""


class SaidTarget(Said):
    """The front share wanted [-]; `aboard` is written `with`."""

    front_share: Annotated[float, number(bounds.SHARE)]
    """Part of the weight wanted on the front axle, 0 to 1."""
    tolerance: Annotated[float, number(bounds.SHARE_TOLERANCE)]
    """How far that may be missed, either way."""
    aboard: Names = Field(default=[], alias="with")
    """Who and what of [[carried]] is aboard when it is judged."""


class SaidLimits(Said):
    """The maker's plate [kg]."""

    front_axle: Mass | None = None
    """Most that the front axle may carry [kg]."""
    rear_axle: Mass | None = None
    """Most that the rear axle may carry [kg]."""
    gross: Mass | None = None
    """Most that the car may weigh [kg]."""


class SaidElectrics(Said):
    """Voltage windows [V], whether a string may be parted among bays, and what the drive draws [A]."""

    inverter_voltage: VoltageWindow
    """What the inverter takes, [low, high]; strings stay inside, empty to full [V]."""
    charger_voltage: VoltageWindow | None = None
    """The same of the charger [V]."""
    string_in_one_bay: bool = False
    """Whether every string stays whole in one bay."""
    current: SaidCurrent | None = None
    """What the drive draws of the whole pack [A]."""


class SaidCar(SaidFile):
    """A car.toml."""

    samples = (examples.CAR,)

    name: Name
    """What the car is called."""
    bays: Annotated[Names, listed("a list of one or more bay files", 1, 100)]
    """The bays' files, in this folder."""
    wheelbase: Annotated[float, number(bounds.WHEELBASE)]
    """From the front axle to the rear axle [mm]."""
    track: SaidTrack
    """Width between the tyres' middles [mm]."""
    weighed: SaidWeighed | None = None
    """What four scales read under the stripped car."""
    fitted: list[SaidMass] = Field(default_factory=list)
    """What still goes in, the battery apart; one table each."""
    carried: list[SaidMass] = Field(default_factory=list)
    """People and luggage; one table each."""
    target: SaidTarget | None = None
    """How the weight shall lie on the axles."""
    limits: SaidLimits = SaidLimits()
    """The maker's plate, judged with everything carried."""
    electrics: SaidElectrics | None = None
    """What the pack's strings must suit."""
    box: SaidBox | None = None
    """How this workshop builds boxes; a bay's file may say otherwise."""
    fold_shop: SaidFoldShop = SaidFoldShop()
    """Who cuts, folds and welds; what is left out is usual practice."""
    print_shop: SaidPrintShop = SaidPrintShop()
    """Who prints; what is left out is usual practice."""
    tolerances: SaidTolerances = SaidTolerances()
    """What parts may be out, plus or minus, for the play of the modules inside."""
    retention: SaidRetention = SaidRetention()
    """The pulls under which every box must stay put."""
