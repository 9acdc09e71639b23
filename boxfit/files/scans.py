"""Files of other programs that a car's bay files name, each read once however often it is named."""

from pathlib import Path
from typing import get_args

from boxfit.bay import Way
from boxfit.files.bounds import COORDINATE
from boxfit.files.folder import scan_file
from boxfit.files.places import vector
from boxfit.files.said_survey import HOLES, SaidMeshSurvey, SaidScan, SaidStepSurvey, Unit
from boxfit.files.shown import plain, shown
from boxfit.surface import Surface
from boxfit.survey.fault import SurveyError
from boxfit.survey.heal import LONGEST, SHORTEST, Healed, check_bay, healed


class Scans:
    """The scans and solids in the folder of a car."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._read: dict[tuple[Path, bool], Surface | SurveyError] = {}

    def scan(self, said: SaidMeshSurvey, way: Way | None) -> Healed:
        """The surface of a scan, made fit to measure from, and what was done to it; `way` is its open side.

        Raises SurveyError as `solid` does, and where the scan makes no room.
        """
        surface = self._placed(said)
        check_bay(surface, said.unit)
        found = healed(surface, said.reads, said.holes, said.strays, way)
        _check_near(found.surface, said)
        return found

    def solid(self, said: SaidScan, way: Way | None) -> Healed:
        """The surface of a closed solid, which may lack the side `way`, and what was done to it.

        Nothing of it is left out, however small: a screw is metal too. Raises SurveyError where there is no
        such file, it cannot be taken or is not closed, or its unit is another one.
        """
        surface = self._placed(said)
        if isinstance(said, SaidStepSurvey):
            check_bay(surface, said.unit)
        _check_size(surface)
        try:
            found = healed(surface, "room", HOLES, 0.0, way)
        except SurveyError as error:
            raise _not_closed(error) from None
        _check_near(found.surface, said)
        return found

    def _placed(self, said: SaidScan) -> Surface:
        """The surface as it is in the file, in the car's axes [mm]."""
        from boxfit.survey.placed import placed

        path, step = scan_file(said.file, self._folder), isinstance(said, SaidStepSurvey)
        unit = _unit(said, path, step)
        return placed(self._surface(path, step), unit, vector(said.turn), vector(said.move))

    def _surface(self, path: Path, step: bool) -> Surface:
        from boxfit.survey.mesh_file import read_mesh
        from boxfit.survey.step_file import read_step

        if (path, step) not in self._read:
            try:
                self._read[path, step] = read_step(path) if step else read_mesh(path)
            except SurveyError as error:
                self._read[path, step] = error
        found = self._read[path, step]
        if isinstance(found, SurveyError):
            raise found
        return found


def _unit(said: SaidScan, path: Path, step: bool) -> str:
    """The unit that what is read stands in: a solid in [mm], whatever its file states."""
    from boxfit.survey import mesh_file, step_file

    stated = step_file.stated_unit(path) if step else mesh_file.stated_unit(path)
    if stated not in (None, said.unit):
        rule = f"must agree with {shown(stated)}, the unit stated in {plain(said.file)} itself"
        units = get_args(Unit)
        remedy = f"write unit = {shown(stated)}" if stated in units else f"save it in {' or '.join(units)}"
        raise SurveyError("unit", rule, remedy, shown(said.unit))
    if step and stated is None and said.unit != "mm":
        rule = f'must be "mm": {plain(said.file)} states no unit, or several, and is read in mm'
        raise SurveyError("unit", rule, "save it again with its unit in it", shown(said.unit))
    return "mm" if step else said.unit


def _check_size(surface: Surface) -> None:
    """Raises SurveyError where a solid is larger or smaller than what is made fit to measure from."""
    longest = max(high - low for low, high in zip(surface.low, surface.high, strict=True))
    if not SHORTEST <= longest <= LONGEST:
        rule = f"makes the solid {longest:.1f} mm long; it must be from {SHORTEST:.0f} to {LONGEST:.0f} mm"
        raise SurveyError("unit", rule, "check the unit; give a block or a cylinder round something small")


def _check_near(surface: Surface, said: SaidScan) -> None:
    """Raises SurveyError where the surface lies where no part of a car is."""
    farthest = max(max(map(abs, place)) for place in (surface.low, surface.high))
    if farthest > COORDINATE.high:
        rule = f"puts the surface {farthest:.0f} mm from the origin, more than {COORDINATE.high:.0f} mm"
        raise SurveyError("move", rule, "move the surface to where it is in the car", shown(said.move))


def _not_closed(fault: SurveyError) -> SurveyError:
    """The same fault, told of a solid: what a scan can be forgiven, a solid cannot."""
    if fault.key != "file":
        return fault
    remedy = "close it in the program it was made with and save it again as one solid"
    return SurveyError("file", f"must be a closed solid; it {fault.rule}", remedy, fault.got)
