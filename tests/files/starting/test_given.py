"""Answers out of options and out of a conversation: taken, told and asked again."""

from collections.abc import Callable, Iterator

import pytest

from boxfit.files.problems import InputError
from boxfit.files.starting.answers import Answers, BayAnswer, RefusedError, answered
from boxfit.files.starting.given import Said, answers_from
from boxfit.files.starting.questions import (
    BAY,
    FLOOR,
    INVERTER,
    NAME,
    OF_A_BAY,
    QUESTIONS,
    SCALES,
    SHARE,
    TRACKS,
    WHEELBASE,
)

WHOLE: Said = {
    WHEELBASE: ["2180"],
    TRACKS: ["1180", "1160"],
    BAY: ["front bay, prism, up, 670, 740, 340, 170, 300", '"boot, left",mesh,rear,500,800,300'],
}


def problems_of(said: Said) -> list[str]:
    with pytest.raises(InputError) as told:
        answers_from(said, "yours", None, print)
    return [f"{problem.key}: {problem.rule}" for problem in told.value.problems]


def typed(*lines: str) -> Callable[[str], str]:
    """Somebody who types these lines and then leaves."""
    waiting: Iterator[str] = iter(lines)

    def ask(_line: str) -> str:
        line = next(waiting, None)
        if line is None:
            raise EOFError
        return f"{line}\n"

    return ask


def test_options_alone_ask_nothing() -> None:
    bays = (
        BayAnswer("front bay", "prism", "up", 670.0, 740.0, 340.0, 170.0, 300.0),
        BayAnswer("boot, left", "mesh", "rear", 500.0, 800.0, 300.0),
    )
    assert answers_from(WHOLE, "yours", typed(), print) == Answers("yours", 2180.0, (1180.0, 1160.0), bays)
    more = {**WHOLE, NAME: ["A car"], SCALES: ["1", "2", "3", "4.5"], SHARE: ["0,5"], INVERTER: ["80", "160"]}
    told = answers_from(more, "yours", None, print)
    assert (told.name, told.scales, told.front_share, told.inverter) == (
        "A car",
        (1.0, 2.0, 3.0, 4.5),
        0.5,
        (80.0, 160.0),
    )


def test_without_anybody_to_ask_what_is_missing_is_told_at_once() -> None:
    assert problems_of({}) == ["--wheelbase: is missing", "--tracks: is missing", "--bay: is missing"]


def test_everything_wrong_is_told_at_once_and_not_called_missing_too() -> None:
    said = {
        WHEELBASE: ["10"],
        TRACKS: ["1180", "wide"],
        SCALES: ["1", "2", "3", "nan"],
        BAY: ["a,b", "front,prisn,up,100,200,0", "Front!,block,upp,50,50,50", "!!,block,up,50,50,50,,x", ""],
    }
    of_scales, of_wheel = "must be a number from 0.001 to 20000 kg", "must be a number from 100 to 10000 mm"
    kinds = 'must be one of "block", "prism", "sections", "mesh", "step"'
    ways = 'must be one of "up", "down", "front", "rear", "left", "right"'
    form = "must be NAME,KIND,WAY,LENGTH,WIDTH,HEIGHT[,FRONT,FLOOR]"
    assert problems_of(said) == [
        f"--wheelbase: {of_wheel}",
        "--tracks: must be a number from 100 to 5000 mm",
        f"--scales: {of_scales}",
        f"--bay[1]: {form}: 2 found",
        f"--bay[2].kind: {kinds}",
        "--bay[2].height: must be a number from 10 to 5000 mm",
        f"--bay[3].way: {ways}",
        "--bay[4].name: must hold a letter or a figure",
        "--bay[4].floor: must be a number from -1000 to 5000 mm",
        f"--bay[5]: {form}: 0 found",
    ]


def test_two_bays_of_one_name_are_told() -> None:
    said = {**WHOLE, BAY: ["front bay,prism,up,10,20,30", "Front-Bay,prism,up,10,20,30"]}
    assert problems_of(said) == ["--bay[2].name: must differ from the names of the other bays"]


def test_two_bays_whose_names_make_one_file_are_told() -> None:
    """A bay called "car" has car-bay.toml, as car.toml is the car's own."""
    bays = [f"{name}, prism, up, 670, 740, 340" for name in ("car", "car bay")]
    assert any("must differ" in problem for problem in problems_of({**WHOLE, BAY: bays}))


def test_a_conversation_asks_again_what_cannot_be_taken() -> None:
    said: list[str] = []
    asked: list[str] = []
    lines = typed(
        *("", "two", "2180", "1180", "1180 1160", "", "", "", "0", "1"),
        *("front bay", "prysm", "prism", "up", "670", "740", "", "340", "", "300"),
    )

    def ask(line: str) -> str:
        asked.append(line)
        return lines(line)

    told = answers_from({}, "yours", ask, said.append)
    bay = BayAnswer("front bay", "prism", "up", 670.0, 740.0, 340.0, None, 300.0)
    assert told == Answers("yours", 2180.0, (1180.0, 1160.0), (bay,))
    assert said == [
        "  must be a number from 100 to 10000 mm\n  try: write for example: 2180",
        "  must be two numbers, front and rear: 1 entries found\n  try: write for example: 1180 1160",
        "  must be a whole number from 1 to 20\n  try: write for example: 2",
        "Bay 1:",
        '  must be one of "block", "prism", "sections", "mesh", "step"\n  try: did you mean "prism"?',
        "  must be a number from 10 to 5000 mm\n  try: write for example: 340",
    ]
    assert asked[0] == "What is the car called? [yours]"
    assert asked[5].endswith("[kg]? (Enter: not yet)")


def test_only_what_options_leave_open_is_asked() -> None:
    said = {**WHOLE, TRACKS: ["1180", "1160"], NAME: ["A car"], SCALES: ["1", "2", "3", "4"], SHARE: ["0.5"]}
    del said[WHEELBASE]
    told = answers_from(said, "yours", typed("2180", ""), print)
    assert (told.wheelbase, told.inverter) == (2180.0, None)


def test_a_conversation_that_ends_early_is_told() -> None:
    with pytest.raises(InputError, match="the answers ended early"):
        answers_from({}, "yours", typed("A car", "2180"), print)


@pytest.mark.parametrize("question", [*QUESTIONS[:-1], *OF_A_BAY], ids=lambda each: each.option)
def test_every_example_is_a_right_answer(question: object) -> None:
    assert isinstance(question, type(FLOOR))
    assert answered(question, question.example)
    with pytest.raises(RefusedError):
        answered(question, "\x07")
