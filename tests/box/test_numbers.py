"""Part numbers."""

from dataclasses import replace
from itertools import combinations

from boxfit.box.fitting import Looks, Strip, StripHole
from boxfit.box.numbers import bay_letters, made_alike, names_of, part_numbers, with_pieces
from boxfit.box.whole import built_boxes
from boxfit.sheet.strip_flat import strip_flats
from tests.box.samples import HERON, RULES, car_and_layout


def test_every_part_has_a_number_of_its_own() -> None:
    car, layout = car_and_layout()
    built = built_boxes(car, HERON, layout)
    numbers = part_numbers(built)
    names = dict.fromkeys(name for one in built for name in names_of(one.parts))
    assert set(numbers) == set(names)
    plates = [name for name in names if name.split()[4] in ("tray", "lid", "cover", "shelf", "liner")]
    assert len({numbers[name] for name in plates}) == len(plates) == 9
    assert numbers["front bay box 1 tray"] == "F1-01"
    assert numbers["rear bay box 1 lid"] == "R1-02"


def test_strips_made_alike_share_a_number_and_others_do_not() -> None:
    """Just where their flats are alike, as the cut list counts them; bars of two hands among them."""
    car, layout = car_and_layout()
    built = built_boxes(car, HERON, layout)
    numbers = part_numbers(built)
    strips = [strip for one in built[:1] for strip in one.parts.fittings.strips]
    flats = {strip.name: strip_flats((strip,), built[0].bay.box.fold_shop)[0] for strip in strips}
    for one in strips:
        for other in strips:
            alike = replace(flats[one.name], name="") == replace(flats[other.name], name="")
            assert (numbers[one.name] == numbers[other.name]) == alike
    assert len({numbers[strip.name] for strip in strips}) < len(strips)


def test_strips_are_alike_just_where_their_flats_are() -> None:
    """Plates at both ends of a bar, the hole off the middle: four ways to stand, two sorts."""
    shop = RULES.fold_shop
    looks: tuple[tuple[Looks, float], ...] = (("front", 7.0), ("rear", 7.0), ("front", 9.6), ("rear", 9.6))
    plates = [
        Strip(
            kind="hold-down bracket",
            name=str(number),
            material="aluminium-5754",
            thickness=2.5,
            radius=2.5,
            start=(0.0, 0.0, 0.0),
            along="left",
            width=16.6,
            legs=(("up", 25.0),),
            inwards=inwards,
            holes=(StripHole(0, along, 15.0, 6.6),),
        )
        for number, (inwards, along) in enumerate(looks)
    ]
    for one, other in combinations(plates, 2):
        flats = [replace(strip_flats((strip,), shop)[0], name="") for strip in (one, other)]
        assert (made_alike(one) == made_alike(other)) == (flats[0] == flats[1])
    assert len({made_alike(strip) for strip in plates}) == 2


def test_bought_parts_of_one_name_are_numbered_box_by_box() -> None:
    car, layout = car_and_layout()
    numbers = part_numbers(built_boxes(car, HERON, layout))
    assert numbers["front bay box 1 drain"].startswith("F1-")
    assert numbers["rear bay box 1 drain"].startswith("R1-")


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
