"""The files to start from: read without a problem, and every example in them right once it is taken up."""

import re
import tomllib
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from jsonschema import Draft202012Validator

from boxfit.bay import Prism, Shell
from boxfit.files.car import read_car
from boxfit.files.said import SaidFile
from boxfit.files.said_bay import SaidBay
from boxfit.files.said_car import SaidCar
from boxfit.files.schema import schema_of
from boxfit.files.starting.answers import Answers, BayAnswer, SurveyKind
from boxfit.files.starting.bay_text import bay_file, bay_text
from boxfit.files.starting.car_text import car_text
from boxfit.files.starting.commented import value_text
from boxfit.standards.common_practice import USUAL_BOX
from tests.strategies import junk

KINDS: tuple[SurveyKind, ...] = ("block", "prism", "sections", "mesh", "step")
BAYS = tuple(BayAnswer(f"{kind} bay", kind, "up", 670.0, 740.0, 340.0, 170.0, 290.0) for kind in KINDS)
BARE = Answers("Dunlin", 2180.0, (1180.0, 1160.0), BAYS)
FULL = Answers("Dunlin", 2180.0, (1180.0, 1160.0), BAYS, (128.0, 126.5, 109.0, 111.5), 0.52, (80.0, 160.0))
TAKEN_UP = re.compile(r"^#(?=[^ :])", re.MULTILINE)
"""A comment that is an example."""


def blocks(text: str) -> Iterator[dict[str, object]]:
    """The tables of every commented heading taken up by itself, with the commented tables within it."""
    held: list[str] = []
    for block in [*re.split(r"\n\n(?=#?\[)", text)[1:], ""]:
        if held and not re.match(r"#\[\[?\w+\.\w+\]", block):
            yield tomllib.loads("\n\n".join(held))
            held = []
        if block.startswith("#"):
            held.append(TAKEN_UP.sub("", block))


def is_table(value: object) -> bool:
    """True for a table, and for a list of tables."""
    return isinstance(value[0] if isinstance(value, list) else value, dict)


def write(folder: Path, answers: Answers) -> Path:
    folder.mkdir()
    (folder / "car.toml").write_text(car_text(answers), encoding="utf-8")
    for bay in answers.bays:
        (folder / bay_file(bay)).write_text(bay_text(bay, 170.0), encoding="utf-8")
    return folder


@pytest.mark.parametrize("answers", [BARE, FULL])
def test_what_is_written_is_read(answers: Answers, tmp_path: Path) -> None:
    car = read_car(write(tmp_path / "yours", answers))
    assert (car.name, car.wheelbase, car.track_front, car.track_rear) == ("Dunlin", 2180.0, 1180.0, 1160.0)
    assert [bay.name for bay in car.bays] == [bay.name for bay in BAYS]
    assert all(bay.box == USUAL_BOX for bay in car.bays)
    assert (car.weighed is None, car.target is None, car.windows == ()) == (answers is BARE,) * 3
    if car.weighed and car.target:
        assert (car.weighed.rear_right, car.target.front_share) == (111.5, 0.52)
        assert (car.windows[0].low, car.windows[0].high) == (80.0, 160.0)


def test_every_room_has_the_size_taped(tmp_path: Path) -> None:
    """By hand: 670 x 740 x 340 mm from x = 170 backwards, in the middle of the car, on 290."""
    for bay in read_car(write(tmp_path / "yours", BARE)).bays:
        if isinstance(bay.room, Prism):
            xs, ys = zip(*bay.room.outline, strict=True)
            low, high = (min(xs), min(ys), bay.room.floor), (max(xs), max(ys), bay.room.top)
        else:
            assert isinstance(bay.room, Shell)
            low, high = bay.room.surface.low, bay.room.surface.high
        assert (low, high) == ((-500.0, -370.0, 290.0), (170.0, 370.0, 630.0))


@pytest.mark.parametrize(
    ("model", "kind", "text"),
    [
        (SaidCar, "car", car_text(BARE)),
        (SaidCar, "car", car_text(FULL)),
        *((SaidBay, "bay", bay_text(bay, 0.0)) for bay in BAYS),
    ],
)
def test_every_example_is_right_once_it_is_taken_up(model: type[SaidFile], kind: str, text: str) -> None:
    """One table at a time, in place of the one that stands there, if one does; by reader and schema."""
    stands = tomllib.loads(text)
    seen = set()
    for more in blocks(text):
        ((name, table),) = more.items()
        stood = stands.get(name)
        if isinstance(stood, dict) and isinstance(table, dict) and all(map(is_table, table.values())):
            table = {**stood, **table}
        whole = {**stands, name: table}
        model.model_validate(whole)
        Draft202012Validator(schema_of(kind)).validate(whole)
        seen.add(name)
    within = re.sub(r"\n\n#\[.*", "", text, flags=re.DOTALL)
    model.model_validate(tomllib.loads(TAKEN_UP.sub("", within)))
    assert seen | stands.keys() == {field.alias or name for name, field in model.model_fields.items()}


def test_every_line_fits_and_every_key_has_its_help() -> None:
    for text in (car_text(FULL), *(bay_text(bay, 0.0) for bay in BAYS)):
        lines = text.splitlines()
        assert lines[0].startswith("#:schema schemas/")
        assert max(map(len, lines)) <= 120
        for before, line in pairwise(lines):
            if re.match(r"#?[\w\[]", line) and not line.startswith("# "):
                assert "  # " in line or before.startswith("# "), line


def test_what_is_guessed_is_told() -> None:
    assert "Guessed" not in bay_text(BAYS[1], 0.0)
    assert "# Guessed until it is taped: where its front end lies and how high its floor is.\n" in bay_text(
        BayAnswer("boot", "prism", "up", 1.0, 1.0, 1.0), 0.0
    )
    assert "a prism stands in for it" in bay_text(BAYS[3], 0.0)


def test_no_bay_takes_the_name_of_the_car() -> None:
    assert bay_file(BayAnswer("Car", "prism", "up", 1.0, 1.0, 1.0)) == "car-bay.toml"


def toml_alike(value: object) -> bool:
    """Whether TOML has the value: numbers of 64 bits, no nan."""
    if isinstance(value, list):
        return all(map(toml_alike, value))
    if isinstance(value, dict):
        return all(map(toml_alike, [*value, *value.values()]))
    if isinstance(value, str):
        return value.isprintable()
    return not isinstance(value, int | float) or abs(value) < 1e18


@settings(max_examples=50, deadline=None)
@given(junk.filter(toml_alike))
def test_any_value_is_read_as_it_was_written(value: object) -> None:
    assert tomllib.loads(f"key = {value_text(value)}") == {"key": value}
