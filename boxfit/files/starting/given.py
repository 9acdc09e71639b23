"""Answers out of options and, where there is somebody to ask, out of a conversation."""

import csv
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from boxfit.files.across import bare_name
from boxfit.files.problems import InputError, Problem
from boxfit.files.shown import shown
from boxfit.files.starting import questions
from boxfit.files.starting.answers import Answers, BayAnswer, RefusedError, answered
from boxfit.files.starting.bay_text import bay_file, file_of
from boxfit.files.starting.questions import BAY, OF_A_BAY, QUESTIONS, Question

Ask = Callable[[str], str]
"""Shows a line and gives what was typed; raises EOFError where nobody answers any more."""
Tell = Callable[[str], None]
_MOST_BAYS = 20
Said = Mapping[Question, Sequence[str]]
"""What options say: the words behind each that was written."""
_Found = dict[Question, object]


def answers_from(said: Said, name: str, ask: Ask | None, tell: Tell) -> Answers:
    """What the options say; what they leave open is asked for where `ask` is there and something is needed.

    `name` is the car's where nobody says otherwise. Raises InputError with everything that is wrong or
    missing in the options, or where the conversation ends early.
    """
    problems: list[Problem] = []
    found = _from_options(said, problems)
    missing = [each for each in QUESTIONS if each.needed and each not in found]
    if missing and ask is None:
        problems += [_missing(each) for each in missing if not _spoken_of(each, problems)]
    if problems:
        raise InputError(problems)
    if missing and ask is not None:
        try:
            _ask_the_rest(found, name, ask, tell)
        except EOFError:
            remedy = "answer all of it, or say it by options: boxfit new --help"
            raise InputError([Problem("boxfit new", "", "the answers ended early", None, remedy)]) from None
    return _all_of(found, name)


def _from_options(said: Said, problems: list[Problem]) -> _Found:
    """The options that can be taken; `problems` grows by the others."""
    found: _Found = {}
    bays: list[BayAnswer] = []
    for question, texts in said.items():
        if question is BAY:
            for place, text in enumerate(texts, start=1):
                bays += _bay_from(text, place, bays, problems)
            continue
        try:
            found[question] = answered(question, " ".join(texts))
        except RefusedError as refused:
            got = shown(" ".join(texts))
            problems.append(Problem("boxfit new", question.option, refused.rule, got, _by_option(question)))
    if bays:
        found[BAY] = bays
    return found


def _by_option(question: Question) -> str:
    return f"write for example: {question.option} {question.example}"


def _missing(question: Question) -> Problem:
    return Problem("boxfit new", question.option, "is missing", None, _by_option(question))


def _spoken_of(question: Question, problems: Sequence[Problem]) -> bool:
    """Whether something is said of it already, so that it is not called missing too."""
    return any(problem.key.startswith(question.option) for problem in problems)


def _bay_from(text: str, place: int, others: list[BayAnswer], problems: list[Problem]) -> list[BayAnswer]:
    """One bay out of its option; none, and `problems` longer, where it cannot be taken."""
    key, known = f"{BAY.option}[{place}]", len(problems)
    fields = _fields(text)
    least, most = sum(each.needed for each in OF_A_BAY), len(OF_A_BAY)
    if not least <= len(fields) <= most:
        rule = f"must be {BAY.values}: {len(fields)} found"
        problems.append(Problem("boxfit new", key, rule, shown(text), _by_option(BAY)))
        return []
    told: dict[str, Any] = {}
    for question, field in zip(OF_A_BAY, fields, strict=False):
        try:
            if field or question.needed:
                told[question.option] = _of_a_bay(question, field, others)
        except RefusedError as refused:
            where = f"{key}.{question.option}"
            problems.append(Problem("boxfit new", where, refused.rule, shown(field), refused.remedy))
    return [BayAnswer(**told)] if len(problems) == known else []


def _fields(text: str) -> list[str]:
    """What stands between the commas, quotes taken off; none where it is more than one line."""
    try:
        return [field.strip() for field in next(csv.reader([text], skipinitialspace=True), [])]
    except csv.Error:
        return []


def _of_a_bay(question: Question, text: str, others: Sequence[BayAnswer]) -> object:
    """The answer; a bay's name must make a file of its own."""
    found = answered(question, text)
    if question is questions.BAY_NAME:
        if not bare_name(str(found)):
            raise RefusedError("must hold a letter or a figure", "write for example: front bay")
        if file_of(str(found)) in (bay_file(other) for other in others):
            raise RefusedError("must differ from the names of the other bays", "give each a name of its own")
    return found


def _ask_the_rest(found: _Found, name: str, ask: Ask, tell: Tell) -> None:
    """Asks for all that the options left open."""
    for question in QUESTIONS:
        if question in found:
            continue
        if question is BAY:
            found[BAY] = _asked_bays(ask, tell)
            continue
        usual = f" [{name}]" if question is questions.NAME else ""
        answer = _asked(question, f"{question.asks}{usual}", ask, tell, answered)
        if answer is not None:
            found[question] = answer


def _asked(
    question: Question, line: str, ask: Ask, tell: Tell, take: Callable[[Question, str], object]
) -> object:
    """The answer to one question, asked until it can be taken; None where Enter alone says not yet."""
    later = "" if question.needed or question is questions.NAME else " (Enter: not yet)"
    while True:
        text = ask(f"{line}{later}").strip()
        if not text and not question.needed:
            return None
        try:
            return take(question, text)
        except RefusedError as refused:
            tell(f"  {refused.rule}\n  try: {refused.remedy}")


def _asked_bays(ask: Ask, tell: Tell) -> list[BayAnswer]:
    bays: list[BayAnswer] = []
    for place in range(1, _asked_count(ask, tell) + 1):
        tell(f"Bay {place}:")
        told: dict[str, Any] = {}
        for question in OF_A_BAY:
            answer = _asked(
                question, f"  {question.asks}", ask, tell, lambda one, text: _of_a_bay(one, text, bays)
            )
            if answer is not None:
                told[question.option] = answer
        bays.append(BayAnswer(**told))
    return bays


def _asked_count(ask: Ask, tell: Tell) -> int:
    while True:
        text = ask(BAY.asks).strip()
        if text.isascii() and text.isdigit() and len(text) <= 3 and 1 <= int(text) <= _MOST_BAYS:
            return int(text)
        tell(f"  must be a whole number from 1 to {_MOST_BAYS}\n  try: write for example: 2")


def _all_of(found: _Found, name: str) -> Answers:
    said: dict[Question, Any] = {**found}
    scales, inverter = said.get(questions.SCALES), said.get(questions.INVERTER)
    return Answers(
        name=said.get(questions.NAME, name),
        wheelbase=said[questions.WHEELBASE],
        tracks=tuple(said[questions.TRACKS]),
        bays=tuple(said[BAY]),
        scales=tuple(scales) if scales else None,
        front_share=said.get(questions.SHARE),
        inverter=tuple(inverter) if inverter else None,
    )
