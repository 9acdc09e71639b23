"""Cars with keys of their files set to other values."""

from pathlib import Path

import pytest

from boxfit.car import Car
from boxfit.files.problems import InputError
from boxfit.files.together import VariedCar, read_varied
from boxfit.files.vary import MOST_CARS, combinations
from tests.samples import CAR, CAR_FILES, changed, write_car


def read(root: Path, *varied: str, car: str = CAR) -> tuple[VariedCar, ...]:
    folder = write_car(root, {**CAR_FILES, "car.toml": car})
    cars, modules = read_varied(folder, [str(root / "modules" / "heron-44.toml")], varied)
    assert [one.name for one in modules] == ["Heron 44"]
    return cars


def of(cars: tuple[VariedCar, ...]) -> list[Car]:
    return [one.car for one in cars]


def told(tmp_path: Path, *varied: str) -> str:
    with pytest.raises(InputError) as error:
        read(tmp_path, *varied)
    return str(error.value)


def test_without_words_the_car_is_as_it_is(tmp_path: Path) -> None:
    (only,) = read(tmp_path)
    assert only.variation == ()
    assert only.car.folder == "dunlin-850"


def test_a_key_of_the_car_takes_each_value(tmp_path: Path) -> None:
    cars = read(tmp_path, "box.shape=rectangular,stepped")
    assert [one.variation for one in cars] == [
        (("box.shape", "rectangular"),),
        (("box.shape", "stepped"),),
    ]
    assert [[bay.box.shape for bay in one.car.bays] for one in cars] == [
        ["rectangular", "rectangular"],
        ["stepped", "stepped"],
    ]


def test_a_key_of_one_bay_leaves_the_other_alone_and_makes_the_table_it_needs(tmp_path: Path) -> None:
    cars = read(tmp_path, "front.box.tiers=1,2", "rear.survey.tolerance=4.0, 6.5")
    figures = [(car.bays[0].box.tiers, car.bays[1].box.tiers, car.bays[1].tolerance) for car in of(cars)]
    assert figures == [(1, 2, 4.0), (1, 2, 6.5), (2, 2, 4.0), (2, 2, 6.5)]


def test_lists_tables_and_entries_of_lists(tmp_path: Path) -> None:
    cars = read(
        tmp_path,
        'bays=["front.toml"],["front.toml","rear.toml"]',
        "fitted[1].at[3]=100.0",
        "front.keepout[1].negotiable=true",
        "target={front_share=0.49,tolerance=0.02}",
    )
    assert [len(car.bays) for car in of(cars)] == [1, 2]
    assert {car.fitted[0].at for car in of(cars)} == {(-310.0, 0.0, 100.0)}
    assert all(car.bays[0].keepouts[0].negotiable for car in of(cars))
    assert {car.target and car.target.front_share for car in of(cars)} == {0.49}


def test_a_bay_named_only_by_a_variation_may_be_varied(tmp_path: Path) -> None:
    lists = 'bays=["front.toml"],["front.toml","rear.toml"]'
    only_front = changed(CAR, "bays = [", 'bays = ["front.toml"] # [')
    cars = read(tmp_path, lists, "rear.survey.tolerance=9", car=only_front)
    assert [[bay.tolerance for bay in car.bays] for car in of(cars)] == [[3.0], [3.0, 9.0]]


@pytest.mark.parametrize(
    ("word", "message"),
    [
        ("box.shape", '--vary: must be KEY=VALUE,VALUE (got "box.shape")\n  try: write for example: --vary'),
        ("box.shape=", '--vary: must be KEY=VALUE,VALUE (got "box.shape=")'),
        ("box.shape=stepped,,x", '--vary: must be KEY=VALUE,VALUE (got "box.shape=stepped,,x")'),
        ("box..shape=stepped", "--vary: must be KEY=VALUE,VALUE"),
        ("fitted[0].mass=1", "--vary: must be KEY=VALUE,VALUE"),
        ("box.shape=[1", "--vary: box.shape: is no value"),
        ("box.shape=1\nx = 2", "--vary: box.shape: is no value"),
        (
            "box.shape=rectangular,steped",
            "car.toml with box.shape=steped: box.shape: "
            'must be one of "rectangular", "stepped" (got "steped")\n'
            '  try: did you mean "stepped"?',
        ),
        (
            "box.shap=stepped",
            'box.shap: is not a known key\n  try: did you mean "shape"? Known here: material',
        ),
        ("boxx=1", 'boxx: is not a known key\n  try: did you mean "box"?'),
        (
            "fron.box.tiers=1",
            "--vary: fron is neither a key of car.toml nor the name of a bay's file\n"
            '  try: did you mean "front"? a bay here is front, rear; a key of car.toml begins with name',
        ),
        (
            "front.survey.floor=300,700",
            "front.toml with front.survey.floor=700: survey.floor: must be below top",
        ),
        ("fitted[3].mass=1", "--vary: fitted[3].mass has no place in the file"),
        ("name.short=x", "--vary: name.short has no place in the file"),
        ('bays=["frond.toml"]', 'bays[1]: there is no such file (got "frond.toml")'),
    ],
)
def test_what_is_wrong_is_told_with_what_is_near(tmp_path: Path, word: str, message: str) -> None:
    assert message in told(tmp_path, word)


def test_a_problem_of_many_combinations_is_told_once(tmp_path: Path) -> None:
    text = told(tmp_path, "box.tiers=1,2,3", "box.shape=steped", "rear.box.tiers=0")
    assert text.count("must be one of") == 1
    assert text.count("tiers: must be a whole number") == 1


def test_wrong_files_are_told_before_anything_is_varied(tmp_path: Path) -> None:
    with pytest.raises(InputError) as error:
        read(tmp_path, "box.shape=steped", car=changed(CAR, "tiers = 2", "tiers = 0"))
    assert str(error.value).startswith("car.toml: box.tiers: must be a whole number")


def test_a_key_twice_and_too_many_cars_are_refused(tmp_path: Path) -> None:
    assert "varies box.tiers twice" in told(tmp_path, "box.tiers=1", "box.tiers=2")
    many = ",".join(map(str, range(1, 40)))
    assert f"at most {MOST_CARS}" in told(tmp_path / "many", f"box.tiers={many}", f"box.boxes={many}")


def test_equal_values_count_once() -> None:
    assert len(combinations(["box.tiers=1,1,2"])) == 2
