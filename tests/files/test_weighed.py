"""Readings that agree with one another are believed; the height comes from the raised axle."""

from pathlib import Path

import pytest

from boxfit.car import CornerWeights, RaisedAxle
from boxfit.files.car import read_car
from boxfit.files.problems import InputError
from tests.samples import CAR_FILES, changed, write_car

RAISED = '[weighed.raised]\naxle = "front"\nheight = 500.0\nload = 227.7\nwheel_radius = 280.0'
HEIGHT = "height_of_mass = 420.0"


def weighed(folder: Path, *lines: str) -> CornerWeights:
    """The readings with the line of the height replaced."""
    text = changed(CAR_FILES["car.toml"], HEIGHT, "\n".join(lines))
    found = read_car(write_car(folder, {**CAR_FILES, "car.toml": text})).weighed
    assert found is not None
    return found


def test_a_raised_axle_gives_the_height(tmp_path: Path) -> None:
    """By hand: 7.2 kg more behind x 2180 / (475 x tan(asin(500 / 2180)) = 0.23563) = 140.2 over 280 mm."""
    found = weighed(tmp_path, RAISED)
    assert found.height_of_mass == pytest.approx(420.2, abs=0.1)
    assert found.raised == RaisedAxle("front", 500.0, 227.7, 280.0)


def test_the_height_as_written_stands_where_the_two_agree(tmp_path: Path) -> None:
    assert weighed(tmp_path, "height_of_mass = 440.0", RAISED).height_of_mass == 440.0


@pytest.mark.parametrize(
    ("gross", "error", "agrees"), [(480.0, 1.0, True), (480.1, 1.0, False), (484, 2, True)]
)
def test_a_weighbridge_may_be_out_as_far_as_five_scales(
    gross: float, error: float, agrees: bool, tmp_path: Path
) -> None:
    lines = (f"gross = {gross}", f"scale_error = {error}")
    if agrees:
        assert weighed(tmp_path, *lines).scale_error == error
        return
    with pytest.raises(InputError, match="must be what its 4 wheels add up to"):
        weighed(tmp_path, *lines)


def test_everything_wrong_with_the_readings_is_told_at_once(tmp_path: Path) -> None:
    text = changed(CAR_FILES["car.toml"], HEIGHT, "rear_axle = 300.0\n" + RAISED.replace("227.7", "900.0"))
    text = changed(text, "rear_right = 111.5", "rear_right = 111.5\nfront_axle = 200.0\ngross = 500.0")
    text = changed(text, "gross = 950.0", "gross = 400.0")
    with pytest.raises(InputError) as told:
        read_car(write_car(tmp_path, {**CAR_FILES, "car.toml": text}))
    assert [problem.key for problem in told.value.problems] == [
        "weighed.front_axle",
        "weighed.rear_axle",
        "weighed.gross",
        "weighed.raised.load",
        "limits.gross",
    ]


@pytest.mark.parametrize("line", ["rear_right = 111.5\n", "front_left = 128.0\n"])
def test_three_wheels_are_not_enough(line: str, tmp_path: Path) -> None:
    text = changed(CAR_FILES["car.toml"], line, "gross = 475\n")
    with pytest.raises(InputError, match=rf"weighed\.{line.split(maxsplit=1)[0]}: is missing"):
        read_car(write_car(tmp_path, {**CAR_FILES, "car.toml": text}))


def test_the_readings_in_the_readme_are_right(tmp_path: Path) -> None:
    text = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    (block,) = (one for one in text.split("```toml\n") if one.startswith("[weighed]"))
    car = CAR_FILES["car.toml"]
    start, end = car.index("[weighed]"), car.index("[[fitted]]")
    files = {**CAR_FILES, "car.toml": car[:start] + block.split("```", 1)[0] + car[end:]}
    found = read_car(write_car(tmp_path, files)).weighed
    assert found is not None
    assert found.height_of_mass == pytest.approx(420.2, abs=0.1)
