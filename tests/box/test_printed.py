"""What no printer can make is told; cuts are even, fit the bed, and keep off walls, holes and ribs."""

from dataclasses import replace
from itertools import pairwise

import pytest

from boxfit.bay import Block, BoxRules
from boxfit.box.build import box_parts
from boxfit.box.notes import cannot_build
from boxfit.box.parts import Plate
from boxfit.box.print_cuts import divided, piece_counts
from boxfit.box.print_joints import KEY_HEAD, Ring, ToCut
from boxfit.box.printed import printed_notes, printed_parts
from boxfit.box_shape import rectangle
from boxfit.workshop import PrintShop
from tests.box.samples import LOW, RULES, bay_with, box_around

PRINTED = replace(RULES, process="printed", material="petg", thickness=4.0, flange=24.0)
SHOP = PrintShop()
PLATE = rectangle((0.0, 0.0), (600.0, 200.0))


def printed(rules: BoxRules) -> tuple[str, ...]:
    """The names of the printed parts of a box by these rules."""
    box = box_around(LOW, (600.0, 400.0), (100.0,), rules)
    return tuple(part.name for part in printed_parts(box_parts(bay_with(rules), 1, box), rules))


def test_what_cannot_be_printed_names_its_key() -> None:
    box = box_around(LOW, (600.0, 400.0), (100.0,), PRINTED)
    assert cannot_build(PRINTED, (box,)) == ()
    thin = replace(PRINTED, thickness=1.0, lid_thickness=0.8)
    assert cannot_build(thin) == (
        "box.thickness: the printer's least wall is print_shop.least_wall 1.2 (got 1)",
        "box.lid_thickness: the printer's least wall is print_shop.least_wall 1.2 (got 0.8)",
    )
    small = replace(PRINTED, print_shop=PrintShop(bed=(250.0, 59.0, 250.0)))
    assert cannot_build(small) == ("print_shop.bed: a piece with its joints takes 60 each way (got 59)",)
    assert cannot_build(replace(small, process="welded")) == ()


def test_too_many_pieces_are_told() -> None:
    box = box_around(LOW, (600.0, 400.0), (100.0,), PRINTED)
    rules = replace(PRINTED, print_shop=PrintShop(bed=(70.0, 70.0, 70.0)))
    # hand: 52 of a bed of 70 beside joints and spare, 648 x 448 x 117 in all: 13 x 9 x 3
    (reason,) = cannot_build(rules, (box,))
    assert reason == "print_shop.bed: the tray would fall into 351 pieces, 100 at most (got 70 x 70 x 70)"


def test_only_what_is_of_the_boxs_material_is_printed() -> None:
    assert printed(PRINTED) == (
        "front bay box 1 tray",
        "front bay box 1 lid",
        "front bay box 1 cover plate",
    )
    assert "front bay box 1 cover plate" not in printed(replace(PRINTED, cover_material="stainless-1.4301"))
    assert printed(replace(PRINTED, process="welded")) == ()


def test_pieces_lie_as_few_as_can_be_on_the_bed() -> None:
    """A part longer than the bed's short side is turned to lie along the long one."""
    assert piece_counts((250.0, 250.0, 250.0), (250.0, 250.0, 250.0), 6.0)[0] == (1, 1, 1)
    assert piece_counts((250.1, 100.0, 100.0), (250.0, 250.0, 250.0), 6.0)[0] == (2, 1, 1)
    counts, bed = piece_counts((100.0, 390.0, 100.0), (400.0, 120.0, 120.0), 6.0)
    assert (counts, bed) == ((1, 1, 1), (120.0, 400.0, 120.0))


@pytest.mark.parametrize("size", [251.0, 400.0, 481.0, 600.0, 1500.0])
@pytest.mark.parametrize("side", [60.0, 120.0, 250.0])
def test_pieces_with_their_keys_fit_the_bed(size: float, side: float) -> None:
    part = ToCut((0.0, 0.0, 0.0), (size, 40.0, 3.0), (Ring(rectangle((0.0, 0.0), (size, 40.0))),))
    cuts = [cut.at for cut in divided(part, PrintShop(bed=(side, side, side))).upright]
    ends = [0.0, *cuts, size]
    pieces = [after - before for before, after in pairwise(ends)]
    assert max(pieces) + 8.0 <= side
    assert min(pieces) >= 15.0


def test_a_cut_moves_off_a_hole_and_keys_keep_off_it() -> None:
    """Even cuts at 200 and 400; a hole of 60 at 200, and one of 20 just where a key would be."""
    plain = ToCut((0.0, 0.0, 0.0), (600.0, 200.0, 3.0), (Ring(PLATE),))
    assert [cut.at for cut in divided(plain, SHOP).upright] == [200.0, 400.0]
    keys = divided(plain, SHOP).upright[1].keys
    holes = (
        Block((170.0, 70.0, 0.0), (230.0, 130.0, 3.0)),
        Block((402.0, keys[0] - 10.0, 0.0), (422.0, keys[0] + 10.0, 3.0)),
    )
    first, second = divided(replace(plain, stops=holes), SHOP).upright
    assert not 168.0 < first.at < 232.0
    apart = [abs(key - keys[0]) for key in second.keys if second.at + 8.0 > 402.0]
    assert all(one >= 10.0 + KEY_HEAD / 2.0 for one in apart)


def test_a_cut_never_runs_along_a_wall_or_an_edge() -> None:
    """A plan in two arms, its inner wall at 240 of 480, where the even cut would be."""
    angle = ((0.0, 0.0), (480.0, 0.0), (480.0, 60.0), (240.0, 60.0), (240.0, 200.0), (0.0, 200.0))
    walls = (Plate(angle, 0.0, 100.0),)
    part = ToCut((0.0, 0.0, 0.0), (480.0, 200.0, 100.0), (Ring(angle),), walls, 4.0, 6.5)
    shop = PrintShop(bed=(260.0, 260.0, 260.0))
    for cut in divided(part, shop).upright:
        assert abs(cut.at - 240.0) > 15.0
        # outside half of the wall, and the rest with ribs: 1.9 and 8.6, 0.3 past the faces
        assert {round(run.end - run.start, 6) for run in cut.runs} == {2.2, 8.9}


def test_walls_too_thin_to_lap_are_told() -> None:
    rules = replace(PRINTED, thickness=2.0)
    box = box_around(LOW, (600.0, 400.0), (100.0,), rules)
    parts = printed_parts(box_parts(bay_with(rules), 1, box), rules)
    (note,) = printed_notes(parts, rules)
    assert note.endswith("joints are butted: glue a strip over each; box.thickness = 2.6 would do")
    rules = replace(PRINTED, thickness=2.6)
    box = box_around(LOW, (600.0, 400.0), (100.0,), rules)
    assert printed_notes(printed_parts(box_parts(bay_with(rules), 1, box), rules), rules) == ()
