"""What is believed of files that are right. Expected values: by hand from tests/samples.py."""

from pathlib import Path

import pytest

from boxfit.bay import Block, Cylinder, Opening, Prism
from boxfit.car import CornerWeights, Limits, PointMass, Target, Window
from boxfit.files.car import read_car
from boxfit.files.examples import BLOCK_BAY, CAR, MESH_BAY, MODULE, PRISM_BAY, SECTIONS_BAY, STEP_BAY
from boxfit.files.module import read_module
from boxfit.files.said_bay import SaidBay
from boxfit.files.said_car import SaidCar
from boxfit.files.said_module import SaidModule
from boxfit.module import Current, FaceRoom, Module, Voltage
from boxfit.standards.common_practice import USUAL_BOX
from tests import samples
from tests.samples import CAR_FILES, changed, write_car, write_module


def without(text: str, heading: str) -> str:
    """The text without the first table of that heading."""
    start = text.index(f"{heading}\n")
    end = text.find("\n[", start + 1)
    return text[:start] + ("" if end < 0 else text[end + 1 :])


def car_text(tmp_path: Path, text: str) -> Path:
    return write_car(tmp_path, {**CAR_FILES, "car.toml": text})


def test_car(tmp_path: Path) -> None:
    car = read_car(write_car(tmp_path))
    assert (car.name, car.folder) == ("Dunlin 850", "dunlin-850")
    assert (car.wheelbase, car.track_front, car.track_rear) == (2180.0, 1180.0, 1160.0)
    assert car.weighed == CornerWeights(128.0, 126.5, 109.0, 111.5, 420.0)
    assert car.fitted == (PointMass("drive motor", 54.0, (-310.0, 0.0, 360.0)),)
    assert [each.name for each in car.carried] == ["driver", "luggage"]
    assert car.target == Target(0.5, 0.02, ("driver",))
    assert car.limits == Limits(480.0, 520.0, 950.0)
    assert car.windows == (Window("inverter", 80.0, 160.0), Window("charger", 80.0, 170.0))


def test_bays_and_their_distances(tmp_path: Path) -> None:
    front, rear = read_car(write_car(tmp_path)).bays
    outline = ((250.0, -400.0), (250.0, 400.0), (-420.0, 340.0), (-420.0, -340.0))
    assert front.room == Prism(outline, 260.0, 640.0)
    assert (front.tolerance, front.distance, front.keepouts[0].distance) == (3.0, 13.0, 18.0)
    assert front.keepouts[0].solid == Cylinder((200.0, 310.0, 300.0), (-420.0, 330.0, 520.0), 60.0)
    assert front.opening == Opening("up")
    corners = ((-2500.0, -400.0), (-2000.0, -400.0), (-2000.0, 400.0), (-2500.0, 400.0))
    assert rear.room == Prism(corners, 300.0, 600.0)
    assert (rear.box.clearance, rear.box.gap) == (12.0, 4.0)
    assert (rear.distance, rear.keepouts[0].distance) == (16.0, 16.0)
    assert rear.keepouts[0].solid == Block((-2050.0, 350.0, 560.0), (-2000.0, 400.0, 600.0))
    assert rear.opening is None


def test_an_outline_measured_clockwise_is_turned(tmp_path: Path) -> None:
    clockwise = "[[-420.0, -340.0], [-420.0, 340.0], [250.0, 400.0], [250.0, -400.0]]"
    counter = "[[250.0, -400.0], [250.0, 400.0], [-420.0, 340.0], [-420.0, -340.0]]"
    text = changed(CAR_FILES["front.toml"], counter, clockwise)
    room = read_car(write_car(tmp_path, {**CAR_FILES, "front.toml": text})).bays[0].room
    assert room.outline == ((-420.0, -340.0), (250.0, -400.0), (250.0, 400.0), (-420.0, 340.0))


def test_module(tmp_path: Path) -> None:
    module = read_module(write_module(tmp_path, samples.MODULE))
    assert module == Module(
        name="Heron 44",
        stem="heron-44",
        length=355.0,
        width=151.0,
        height=108.0,
        mass=11.6,
        energy=2.2,
        capacity=50.0,
        voltage=Voltage(33.0, 44.0, 50.4),
        up=("height",),
        spacing=2.0,
        current=Current(100.0, 250.0),
        room=FaceRoom(top=30.0),
    )


def test_a_tiny_module_without_current_and_room(tmp_path: Path) -> None:
    text = samples.MODULE
    for old, new in (("355.0", "8"), ("151.0", "3"), ("108.0", "1"), ("spacing = 2.0", "spacing = 0")):
        text = changed(text, old, new)
    text = "".join(
        line for line in text.splitlines(keepends=True) if not line.startswith(("current", "room"))
    )
    module = read_module(write_module(tmp_path, text))
    assert (module.length, module.width, module.height) == (8.0, 3.0, 1.0)
    assert (module.current, module.room) == (None, FaceRoom())


@pytest.mark.parametrize(
    "heading",
    ["[weighed]", "[[fitted]]", "[target]", "[limits]", "[electrics]", "[box]"],
)
def test_a_table_of_the_car_may_be_left_out(heading: str, tmp_path: Path) -> None:
    assert read_car(car_text(tmp_path, without(CAR_FILES["car.toml"], heading)))


@pytest.mark.parametrize(
    "line", ["height_of_mass", "charger_voltage", "front_axle", "rear_axle", "gross", "with"]
)
def test_a_single_key_of_the_car_may_be_left_out(line: str, tmp_path: Path) -> None:
    lines = CAR_FILES["car.toml"].splitlines(keepends=True)
    assert read_car(car_text(tmp_path, "".join(each for each in lines if not each.startswith(line))))


def test_without_carried_the_target_names_nobody_to_be_asked_for(tmp_path: Path) -> None:
    car = read_car(car_text(tmp_path, without(without(CAR_FILES["car.toml"], "[[carried]]"), "[[carried]]")))
    assert car.carried == ()
    assert car.target == Target(0.5, 0.02, ("driver",))


def test_a_bay_may_be_bare(tmp_path: Path) -> None:
    bare = 'name = "b"\nsurvey = { kind = "block", tolerance = 0, low = [0, 0, 0], high = [49, 28, 9] }\n'
    files = {**CAR_FILES, "rear.toml": bare, "car.toml": without(CAR_FILES["car.toml"], "[box]")}
    bay = read_car(write_car(tmp_path, files)).bays[1]
    assert (bay.distance, bay.keepouts, bay.opening) == (0.0, (), None)
    rules = bay.box
    assert (rules.asked, rules.tiers, rules.boxes, rules.shape, rules.process) == (
        False,
        99,
        1,
        "rectangular",
        "folded",
    )
    assert {rules.thickness, rules.flange, rules.lid_thickness, rules.liner, rules.gap, rules.headroom} == {
        0.0
    }


def test_a_box_takes_common_practice_for_what_is_not_said(tmp_path: Path) -> None:
    text = f"{without(CAR_FILES['car.toml'], '[box]')}[box]\n"
    front, rear = read_car(car_text(tmp_path, text)).bays
    assert front.box == USUAL_BOX
    assert rear.box.clearance == 12.0


def test_a_byte_order_mark_is_accepted(tmp_path: Path) -> None:
    folder = write_car(tmp_path)
    path = folder / "car.toml"
    path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes())
    assert read_car(folder).name == "Dunlin 850"


@pytest.mark.parametrize(
    ("model", "sample"),
    [
        (SaidCar, CAR),
        (SaidBay, PRISM_BAY),
        *((SaidBay, {**PRISM_BAY, **bay}) for bay in (BLOCK_BAY, SECTIONS_BAY, MESH_BAY, STEP_BAY)),
        (SaidModule, MODULE),
    ],
)
def test_the_examples_shown_are_right_and_name_every_key(
    model: type[SaidCar | SaidBay | SaidModule], sample: dict[str, object]
) -> None:
    said = model.model_validate(sample)
    assert {field.alias or name for name, field in model.model_fields.items()} == set(sample)
    told = said.model_dump(by_alias=True)
    for key, value in sample.items():
        if isinstance(value, dict):
            assert set(told[key]) == set(value)


def test_the_folder_name_is_as_given_however_it_is_reached(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(write_car(tmp_path))
    assert read_car(Path()).folder == "dunlin-850"
    assert read_car(Path("../dunlin-850/.")).folder == "dunlin-850"
