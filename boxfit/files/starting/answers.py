"""What was answered, each held against the same rules as the files. Lengths [mm], masses [kg], volts [V]."""

from dataclasses import dataclass
from functools import cache
from typing import Annotated, Literal, cast, get_args

from pydantic import TypeAdapter, ValidationError

from boxfit.bay import Way
from boxfit.files import bounds
from boxfit.files.kinds import (
    Mass,
    Name,
    Phrase,
    VoltageWindow,
    WayWord,
    choice,
    listed,
    number,
)
from boxfit.files.starting import questions
from boxfit.files.starting.questions import Question

SurveyKind = Literal["block", "prism", "sections", "mesh", "step"]
_TAPED: tuple[SurveyKind, ...] = get_args(SurveyKind)
_Axle = Annotated[float, number(bounds.TRACK)]
_Side = Annotated[float, number(bounds.BAY_SIDE)]
_ASKED: dict[Question, object] = {
    questions.NAME: Name,
    questions.WHEELBASE: Annotated[float, number(bounds.WHEELBASE)],
    questions.TRACKS: Annotated[list[_Axle], listed("two numbers, front and rear", 2, 2)],
    questions.SCALES: Annotated[list[Mass], listed("four numbers, front left first", 4, 4)],
    questions.SHARE: Annotated[float, number(bounds.SHARE)],
    questions.INVERTER: VoltageWindow,
    questions.BAY_NAME: Phrase,
    questions.KIND: Annotated[SurveyKind, choice(_TAPED)],
    questions.WAY: WayWord,
    questions.LENGTH: _Side,
    questions.WIDTH: _Side,
    questions.HEIGHT: _Side,
    questions.FRONT: Annotated[float, number(bounds.BAY_FRONT)],
    questions.FLOOR: Annotated[float, number(bounds.BAY_FLOOR)],
}
_WORDS = (questions.NAME, questions.BAY_NAME, questions.KIND, questions.WAY)
_SEVERAL = (questions.TRACKS, questions.SCALES, questions.INVERTER)


@dataclass(frozen=True)
class BayAnswer:
    """A bay as the tape has it [mm]: x of its front end and its floor's height are None where not known."""

    name: str
    kind: SurveyKind
    way: Way
    length: float
    width: float
    height: float
    front: float | None = None
    floor: float | None = None


@dataclass(frozen=True)
class Answers:
    """Everything answered [mm], [kg], [V]; None for what is not yet known."""

    name: str
    wheelbase: float
    tracks: tuple[float, float]
    bays: tuple[BayAnswer, ...]
    scales: tuple[float, float, float, float] | None = None
    front_share: float | None = None
    inverter: tuple[float, float] | None = None


class RefusedError(Exception):
    """An answer that cannot be taken: the rule, and what to try."""

    def __init__(self, rule: str, remedy: str) -> None:
        self.rule, self.remedy = rule, remedy
        super().__init__(rule)


def answered(question: Question, text: str) -> object:
    """The answer as a value: words, a number, or a list of numbers.

    Raises RefusedError where the files would refuse it.

    >>> answered(questions.TRACKS, "1180, 1160"), answered(questions.WAY, " up ")
    ([1180.0, 1160.0], 'up')
    """
    try:
        return _adapter(question).validate_python(_value(question, text.strip()))
    except ValidationError as error:
        detail = error.errors(include_url=False)[0]
        told = detail.get("ctx", {})
        rule = str(told.get("rule") or detail["msg"])
        example = question.example.strip('"')
        raise RefusedError(rule, str(told.get("remedy") or f"write for example: {example}")) from None


@cache
def _adapter(question: Question) -> TypeAdapter[object]:
    return TypeAdapter(cast("type[object]", _ASKED[question]))


def _value(question: Question, text: str) -> object:
    if question in _WORDS:
        return text
    if question in _SEVERAL:
        return [_figure(word) for word in text.replace(",", " ").split()]
    return _figure(text.replace(",", "."))


def _figure(word: str) -> object:
    """The number, or the word as it is, for the check to refuse."""
    try:
        return float(word)
    except ValueError:
        return word
