"""Where a module is connected, whichever way it stands."""

from dataclasses import replace

import pytest

from boxfit.electrics.terminals import terminal_face, terminals_at
from boxfit.layout import PlacedModule
from boxfit.module import FaceRoom, stances
from tests.box.samples import HERON

LYING = replace(HERON, up=("height", "width", "length"), room=FaceRoom())


def test_the_file_decides_before_room_and_room_before_the_top() -> None:
    assert terminal_face(LYING) == "top"
    assert terminal_face(replace(LYING, room=FaceRoom(top=5.0, front=25.0))) == "front"
    assert terminal_face(replace(LYING, room=FaceRoom(front=25.0), terminals="left")) == "left"


@pytest.mark.parametrize("face", ["front", "back", "left", "right", "top", "bottom"])
def test_they_are_in_the_middle_of_that_face_however_it_stands(face: str) -> None:
    own = {"front": 355.0, "back": 355.0, "left": 151.0, "right": 151.0, "top": 108.0, "bottom": 108.0}
    module = replace(LYING, terminals=face)
    for stance in stances(module):
        placed = PlacedModule(stance, (10.0, 20.0, 30.0))
        at = terminals_at(module, placed)
        off = [
            abs(here - (low + high) / 2.0)
            for here, low, high in zip(at, placed.low, placed.high, strict=True)
        ]
        assert sorted(off) == pytest.approx([0.0, 0.0, own[face] / 2.0])
        axis = off.index(max(off))
        assert placed.high[axis] - placed.low[axis] == own[face]
        if stance.faces[axis] == face:
            assert at[axis] == placed.high[axis]
