"""What a car file said, nothing believed yet. Lengths [mm], masses [kg], volts [V]."""

from typing import Annotated, get_args

from pydantic import Field

from boxfit.car import USUAL_SCALE, Axle
from boxfit.files import bounds, examples
from boxfit.files.kinds import Mass, Name, Names, Place, VoltageWindow, choice, listed, number
from boxfit.files.said import Said, SaidFile
from boxfit.files.said_box import SaidBox
from boxfit.files.said_retention import SaidRetention
from boxfit.files.said_module import SaidCurrent
from boxfit.files.said_shops import SaidFoldShop, SaidPrintShop, SaidTolerances


class SaidTrack(Said):
    """Track widths [mm]."""

    front: Annotated[float, number(bounds.TRACK)]
    rear: Annotated[float, number(bounds.TRACK)]


class SaidRaised(Said):
    """The car with one axle raised [mm]: what the other axle then reads [kg]; radius of its wheels [mm]."""

    axle: Annotated[Axle, choice(get_args(Axle))]
    height: Annotated[float, number(bounds.RAISE)]
    load: Mass
    wheel_radius: Annotated[float, number(bounds.WHEEL_RADIUS)]


class SaidWeighed(Said):
    """Readings of four scales [kg]; the height of the mass [mm].

    Axles and gross as a weighbridge read them [kg] must agree; one reading may be out by `scale_error` [kg].
    """

    front_left: Mass
    front_right: Mass
    rear_left: Mass
    rear_right: Mass
    height_of_mass: Annotated[float, number(bounds.HEIGHT_OF_MASS)] | None = None
    front_axle: Mass | None = None
    rear_axle: Mass | None = None
    gross: Mass | None = None
    scale_error: Annotated[float, number(bounds.SCALE_ERROR)] = USUAL_SCALE
    raised: SaidRaised | None = None


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
    """Voltage windows [V], whether a string may be parted among bays, and what the drive draws [A]."""

    inverter_voltage: VoltageWindow
    charger_voltage: VoltageWindow | None = None
    string_in_one_bay: bool = False
    current: SaidCurrent | None = None


class SaidCar(SaidFile):
    """A car.toml."""

    samples = (examples.CAR,)

    name: Name
    bays: Annotated[Names, listed("a list of one or more bay files", 1, 100)]
    wheelbase: Annotated[float, number(bounds.WHEELBASE)]
    track: SaidTrack
    weighed: SaidWeighed | None = None
    fitted: list[SaidMass] = Field(default_factory=list)
    carried: list[SaidMass] = Field(default_factory=list)
    target: SaidTarget | None = None
    limits: SaidLimits = SaidLimits()
    electrics: SaidElectrics | None = None
    box: SaidBox | None = None
    fold_shop: SaidFoldShop = SaidFoldShop()
    print_shop: SaidPrintShop = SaidPrintShop()
    tolerances: SaidTolerances = SaidTolerances()
    retention: SaidRetention = SaidRetention()
