"""Part numbers."""

from boxfit.box.numbers import bay_letters, names_of, part_numbers, with_pieces
from boxfit.box.whole import built_boxes
from tests.box.samples import car_and_layout


def test_every_part_has_a_number_of_its_own() -> None:
    built = built_boxes(*car_and_layout())
    numbers = part_numbers(built)
    names = [name for one in built for name in names_of(one.parts)]
    assert list(numbers) == names
    assert len(set(numbers.values())) == len(names)
    assert numbers["front bay box 1 tray"] == "F1-01"
    assert numbers["rear bay box 1 lid"] == "R1-02"


def test_bays_whose_names_begin_alike_have_letters_of_their_own() -> None:
    letters = bay_letters([f"bay {place}" for place in range(40)])
    assert len(set(letters.values())) == 40
    assert list(letters.values())[:4] == ["B", "A", "Y", "C"]


def test_a_piece_belongs_to_the_part_with_the_longest_name() -> None:
    numbers = {"box 1": "F1-01", "box 1 lid": "F1-02"}
    assert with_pieces(numbers, ["box 1 lid ring", "box 1 lid", "box 12 lid"]) == {
        "box 1 lid ring": "F1-02.1",
        "box 1 lid": "F1-02",
    }
