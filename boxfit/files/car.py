"""A car folder into the car believed: car.toml and every bay file it names, all problems at once."""

from collections.abc import Sequence
from dataclasses import replace
from os.path import abspath
from pathlib import Path

from boxfit.bay import Bay
from boxfit.car import Car, CornerWeights, Limits, PointMass, RaisedAxle, Target, Window
from boxfit.files.across import across_bay, across_car, bare_name
from boxfit.files.across_shops import Raw, across_shops, mounts_in_reach
from boxfit.files.bay import bay_believed
from boxfit.files.checked import checked
from boxfit.files.folder import bay_files, check_folder
from boxfit.files.places import vector
from boxfit.files.problems import InputError, Problem
from boxfit.files.said_bay import SaidBay
from boxfit.files.said_car import SaidCar, SaidElectrics, SaidMass, SaidTarget, SaidWeighed
from boxfit.files.said_retention import retention_believed
from boxfit.files.scans import Scans
from boxfit.files.shown import shown
from boxfit.files.surveyed import Surveyed, surveyed
from boxfit.files.toml import read_table
from boxfit.files.vary import Change, bay_stem, changed
from boxfit.module import Current
from boxfit.weight.raised_axle import height_of_mass

CAR_FILE = "car.toml"


def read_car(folder: Path, changes: Sequence[Change] = (), scans: Scans | None = None) -> Car:
    """The car in the folder, with its bays in the order car.toml names them.

    `changes` are made to its files before anything in them is believed; `scans` remember what was read of the
    folder before. Raises InputError with everything that is wrong in all of its files.
    """
    check_folder(folder, CAR_FILE)
    problems: list[Problem] = []
    raw = changed(read_table(folder / CAR_FILE, CAR_FILE), "", changes, problems)
    said = checked(SaidCar, raw, CAR_FILE, problems)
    problems.extend(across_car(raw, CAR_FILE))
    raws = _raw_bays(bay_files(raw, folder, CAR_FILE, problems), problems)
    raws = [(file, changed(bay, bay_stem(file), changes, problems)) for file, bay in raws]
    said_bays = _said_bays(raws, problems)
    problems.extend(across_shops(raw, CAR_FILE, raws))
    bays = _surveyed(said_bays, scans or Scans(folder), problems)
    if said is None or problems:
        raise InputError(problems)
    believed = tuple(bay_believed(bay, found, said) for bay, found in bays)
    return _believed(said, Path(abspath(folder)).name, believed)


def _raw_bays(files: list[tuple[str, Path]], problems: list[Problem]) -> list[tuple[str, Raw]]:
    """The tables of the bay files that can be read; `problems` grows by the others."""
    found: list[tuple[str, Raw]] = []
    for file, path in files:
        try:
            found.append((file, read_table(path, file)))
        except InputError as error:
            problems.extend(error.problems)
    return found


def _said_bays(raws: list[tuple[str, Raw]], problems: list[Problem]) -> list[tuple[str, SaidBay]]:
    """What the bay files said, those that are right in themselves; `problems` grows by what is wrong."""
    found: list[tuple[str, SaidBay]] = []
    named: dict[str, str] = {}
    for file, raw in raws:
        known = len(problems)
        said = checked(SaidBay, raw, file, problems)
        problems.extend(across_bay(raw, file))
        if said is not None and len(problems) == known:
            found.append((file, said))
        name = raw.get("name")
        if isinstance(name, str) and named.setdefault(bare_name(name), file) != file:
            rule = f"must differ from the name in {named[bare_name(name)]}"
            problems.append(Problem(file, "name", rule, shown(name), "give each bay a name of its own"))
    return found


def _surveyed(
    bays: list[tuple[str, SaidBay]], scans: Scans, problems: list[Problem]
) -> list[tuple[SaidBay, Surveyed]]:
    """The bays with what was surveyed of them; `problems` grows by the surveys that cannot be taken."""
    both = [(said, surveyed(said, scans, file, problems)) for file, said in bays]
    for (file, said), (_, found) in zip(bays, both, strict=True):
        problems.extend(mounts_in_reach(said, found.room, file) if found else ())
    return [(said, found) for said, found in both if found is not None]


def _believed(said: SaidCar, folder: str, bays: tuple[Bay, ...]) -> Car:
    return Car(
        name=said.name,
        folder=folder,
        wheelbase=said.wheelbase,
        track_front=said.track.front,
        track_rear=said.track.rear,
        bays=bays,
        weighed=_corners(said.weighed, said.wheelbase) if said.weighed else None,
        fitted=tuple(_point_mass(each) for each in said.fitted),
        carried=tuple(_point_mass(each) for each in said.carried),
        target=_target(said.target) if said.target else None,
        limits=Limits(said.limits.front_axle, said.limits.rear_axle, said.limits.gross),
        windows=_windows(said.electrics) if said.electrics else (),
        string_in_one_bay=said.electrics.string_in_one_bay if said.electrics else False,
        drive=_drive(said.electrics) if said.electrics else None,
        retention=retention_believed(said.retention),
    )


def _corners(said: SaidWeighed, wheelbase: float) -> CornerWeights:
    """The readings; the height of the mass is as written, else by the axle that was raised."""
    raised = RaisedAxle(**said.raised.model_dump()) if said.raised else None
    level = CornerWeights(
        said.front_left,
        said.front_right,
        said.rear_left,
        said.rear_right,
        said.height_of_mass,
        raised,
        said.scale_error,
    )
    if raised is None or level.height_of_mass is not None:
        return level
    return replace(level, height_of_mass=height_of_mass(level, raised, wheelbase))


def _point_mass(said: SaidMass) -> PointMass:
    return PointMass(said.name, said.mass, vector(said.at))


def _target(said: SaidTarget) -> Target:
    return Target(said.front_share, said.tolerance, tuple(said.aboard))


def _drive(said: SaidElectrics) -> Current | None:
    return Current(said.current.continuous, said.current.peak) if said.current else None


def _windows(said: SaidElectrics) -> tuple[Window, ...]:
    given = (("inverter", said.inverter_voltage), ("charger", said.charger_voltage))
    return tuple(Window(name, volts[0], volts[1]) for name, volts in given if volts is not None)
