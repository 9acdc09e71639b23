"""A car.toml to start from."""

from dataclasses import asdict

from boxfit.files.checked import tables_in
from boxfit.files.examples import CAR, Table
from boxfit.files.said_car import SaidCar
from boxfit.files.starting.answers import Answers
from boxfit.files.starting.bay_text import PLAIN_WORDS, bay_file
from boxfit.files.starting.commented import Part, key_lines, text_of
from boxfit.standards.common_practice import USUAL_BOX

_TOLERANCE = 0.02
"""Of a front share (common practice, no source)."""
_OF_THE_BOX = (
    "material",
    "process",
    "shape",
    "thickness",
    "bend_radius",
    "flange",
    "lid_thickness",
    "clearance",
    "liner",
    "gap",
    "headroom",
    "tiers",
    "boxes",
)
"""What is settled for every box from the start."""
_AT_THE_TOP = ("name", "bays", "wheelbase", "track")


def car_text(answers: Answers) -> str:
    """The file: what was answered, usual practice for boxes, and everything else as comments."""
    front, rear = answers.tracks
    top: Table = {
        "name": answers.name,
        "bays": [bay_file(bay) for bay in answers.bays],
        "wheelbase": answers.wheelbase,
        "track": {"front": front, "rear": rear},
    }
    helps = {name: field.description or "" for name, field in SaidCar.model_fields.items()}
    head = ["#:schema schemas/car.json", *PLAIN_WORDS, ""]
    for key in _AT_THE_TOP:
        head += key_lines(key, top[key], helps[key], said=True)
    said = _said(answers)
    return text_of(head, [part for key in helps if key not in top for part in _parts(key, helps[key], said)])


def _said(answers: Answers) -> dict[str, Table]:
    said: dict[str, Table] = {"box": {key: asdict(USUAL_BOX)[key] for key in _OF_THE_BOX}}
    if answers.scales:
        wheels = ("front_left", "front_right", "rear_left", "rear_right")
        said["weighed"] = dict(zip(wheels, answers.scales, strict=True))
    if answers.front_share is not None:
        said["target"] = {"front_share": answers.front_share, "tolerance": _TOLERANCE}
    if answers.inverter:
        said["electrics"] = {"inverter_voltage": list(answers.inverter)}
    return said


def _parts(key: str, words: str, said: dict[str, Table]) -> list[Part]:
    """A table of the car with all that the example has of it."""
    model = tables_in(SaidCar.model_fields[key].annotation)[0]
    sample = CAR[key]
    if isinstance(sample, list):
        return [Part(key, model, each, None, words, many=True) for each in sample]
    return [Part(key, model, sample, said.get(key), words)] if isinstance(sample, dict) else []
