"""The room and the solids that a bay file tells of, its scans read and placed. [mm]"""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace

from boxfit.bay import Opening, Prism, Room, Shell, Solid
from boxfit.files.places import outline, vector
from boxfit.files.problems import Problem
from boxfit.files.said import Said
from boxfit.files.said_bay import SaidBay, SaidOpening
from boxfit.files.said_survey import (
    SaidBlockSurvey,
    SaidMeshSurvey,
    SaidPrismSurvey,
    SaidReference,
    SaidSectionsSurvey,
    SaidSurface,
)
from boxfit.files.scans import Scans
from boxfit.files.shown import shown
from boxfit.files.solid import solid_believed
from boxfit.surface import Surface
from boxfit.survey.fault import SurveyError
from boxfit.survey.heal import Healed


@dataclass(frozen=True)
class Surveyed:
    """The room of a bay, and of each of its keep-outs the solid, wherever it gets to when it moves."""

    room: Room
    solids: tuple[Solid, ...]


def surveyed(said: SaidBay, scans: Scans, file: str, problems: list[Problem]) -> Surveyed | None:
    """What was surveyed; None, and `problems` longer, where a survey or a solid cannot be taken."""
    known = len(problems)
    solids: list[Solid] = []
    for place, keepout in enumerate(said.keepout, start=1):
        with _told(keepout, file, f"keepout[{place}]", problems):
            solids.append(solid_believed(keepout, scans))
    survey = said.survey
    if isinstance(survey, SaidBlockSurvey | SaidPrismSurvey):
        return Surveyed(_prism(survey), tuple(solids)) if len(problems) == known else None
    with _told(survey, file, "survey", problems):
        bounds = _bounds(survey, said.opening, scans)
        if len(problems) == known:
            return Surveyed(_shell(survey, bounds, said.opening, solids), tuple(solids))
    return None


def opening_believed(said: SaidOpening | None) -> Opening | None:
    """The opening as the rest of the program takes it. [mm]"""
    if said is None:
        return None
    return Opening(said.way, outline(said.outline) if said.outline else None)


@contextmanager
def _told(said: Said, file: str, table: str, problems: list[Problem]) -> Iterator[None]:
    """Turns a survey that cannot be taken into a problem of that table; a word that is at fault is shown."""
    try:
        yield
    except SurveyError as error:
        word = getattr(said, error.key, None)
        got = shown(word) if error.got is None and isinstance(word, str) else error.got
        problems.append(Problem(file, f"{table}.{error.key}", error.rule, got, error.remedy))


def _prism(survey: SaidBlockSurvey | SaidPrismSurvey) -> Prism:
    if isinstance(survey, SaidPrismSurvey):
        return Prism(outline(survey.outline), survey.floor, survey.top)
    (left, right, floor), (front, port, top) = survey.low, survey.high
    return Prism(((left, right), (front, right), (front, port), (left, port)), floor, top)


def _bounds(survey: SaidSurface, opening: SaidOpening | None, scans: Scans) -> Healed:
    """The surface round the room and what was done to it, proved by the reference where one was taped."""
    from boxfit.survey.sections import lofted

    way = opening.way if opening else None
    if isinstance(survey, SaidSectionsSurvey):
        bounds = Healed(lofted([(each.at, outline(each.outline)) for each in survey.section]), ())
    elif isinstance(survey, SaidMeshSurvey):
        bounds = scans.scan(survey, way)
    else:
        bounds = scans.solid(survey, way)
    if survey.reference is None:
        return bounds
    return replace(bounds, told=(*bounds.told, _proof(bounds.surface, survey.reference, survey.tolerance)))


def _proof(surface: Surface, said: SaidReference, tolerance: float) -> str:
    """What the distance taped in the car says of the survey."""
    from boxfit.survey.reference import check_reference

    start, end = (vector(place) for place in said.between)
    measured = check_reference(surface, (start, end), said.taped, tolerance)
    return f"the distance taped as {said.taped:.1f} mm measures {measured:.1f} mm on the survey"


def _shell(
    survey: SaidSurface, bounds: Healed, opening: SaidOpening | None, solids: Sequence[Solid]
) -> Shell:
    from boxfit.survey.shell import shell_of
    from boxfit.survey.solids import as_surface

    reads = survey.reads if isinstance(survey, SaidMeshSurvey) else "room"
    fixed = [as_surface(solid) for solid in solids]
    return shell_of(bounds.surface, reads, opening_believed(opening), survey.tolerance, fixed, bounds.told)
