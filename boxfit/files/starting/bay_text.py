"""A bay's file to start from. Lengths [mm]."""

from typing import cast

from boxfit.files import examples
from boxfit.files.across import bare_name
from boxfit.files.examples import Table
from boxfit.files.said import Said
from boxfit.files.said_bay import SaidBay, SaidMount, SaidOpening
from boxfit.files.said_box import SaidBox
from boxfit.files.said_keepout import SaidBlockKeepout, SaidCylinderKeepout, SaidMeshKeepout
from boxfit.files.said_survey import (
    SaidBlockSurvey,
    SaidMeshSurvey,
    SaidPrismSurvey,
    SaidSectionsSurvey,
    SaidStepSurvey,
)
from boxfit.files.starting.answers import BayAnswer, SurveyKind
from boxfit.files.starting.commented import Part, key_lines, text_of

PLAIN_WORDS = (
    "# Lengths [mm], masses [kg]. x points forward, y to the left, z up, from the ground under the middle of",
    "# the front axle. A line with # and no blank after it is an example: take the # off, and put your own.",
)
_TOLERANCE = 3.0
"""Of a tape on curved metal [mm] (common practice, no source)."""
_FLOOR = 300.0
"""Where nobody knows the height of a bay's floor yet [mm]: our own choice, to be taped."""
_SURVEYS: dict[SurveyKind, tuple[type[Said], Table]] = {
    "block": (SaidBlockSurvey, examples.BLOCK_BAY),
    "prism": (SaidPrismSurvey, examples.PRISM_BAY),
    "sections": (SaidSectionsSurvey, examples.SECTIONS_BAY),
    "mesh": (SaidMeshSurvey, examples.MESH_BAY),
    "step": (SaidStepSurvey, examples.STEP_BAY),
}
_KEEPOUTS: tuple[tuple[type[Said], Table], ...] = (
    (SaidBlockKeepout, examples.SECTIONS_BAY),
    (SaidCylinderKeepout, examples.PRISM_BAY),
    (SaidMeshKeepout, examples.MESH_BAY),
)


def bay_file(bay: BayAnswer) -> str:
    """The name of the bay's file.

    >>> bay_file(BayAnswer("Front bay", "prism", "up", 1.0, 1.0, 1.0))
    'front-bay.toml'
    """
    return file_of(bay.name)


def file_of(name: str) -> str:
    """The name of the file of a bay with this name.

    >>> file_of("Car")
    'car-bay.toml'
    """
    stem = bare_name(name).replace(" ", "-")
    return "car-bay.toml" if stem == "car" else f"{stem}.toml"


def bay_text(bay: BayAnswer, guess: float) -> str:
    """The file: a room of the size taped, the way in, and everything else as comments.

    `guess` [mm] is where its front end is put while nobody knows. A scan or solid that is still to come
    is stood in for by a prism.
    """
    helps = {name: field.description or "" for name, field in SaidBay.model_fields.items()}
    head = ["#:schema schemas/bay.json", *PLAIN_WORDS, ""]
    head += [*key_lines("name", bay.name, helps["name"], said=True), *_notes(bay)]
    taken: SurveyKind = "prism" if bay.kind in ("mesh", "step") else bay.kind
    model, sample = _SURVEYS[taken]
    room = _room(bay, taken, guess)
    parts = [Part("survey", model, cast("Table", sample["survey"]), room, helps["survey"])]
    others = sorted((kind for kind in _SURVEYS if kind != taken), key=lambda kind: kind != bay.kind)
    for kind in others:
        model, sample = _SURVEYS[kind]
        words = f"In place of the [survey] above, for the kind {kind}."
        parts.append(Part("survey", model, cast("Table", sample["survey"]), None, words))
    hole = cast("Table", examples.PRISM_BAY["opening"])
    parts.append(Part("opening", SaidOpening, hole, {"way": bay.way}, helps["opening"]))
    for model, sample in _KEEPOUTS:
        solid = cast("list[Table]", sample["keepout"])[0]
        parts.append(Part("keepout", model, solid, None, helps["keepout"], many=True))
    mount = cast("list[Table]", examples.PRISM_BAY["mount"])[0]
    parts.append(Part("mount", SaidMount, mount, None, helps["mount"], many=True))
    parts.append(Part("box", SaidBox, cast("Table", examples.CAR["box"]), None, helps["box"]))
    return text_of(head, parts)


def _notes(bay: BayAnswer) -> list[str]:
    """What is still to be taped, or to be scanned."""
    places = (("where its front end lies", bay.front), ("how high its floor is", bay.floor))
    guessed = " and ".join(words for words, place in places if place is None)
    notes = [f"# Guessed until it is taped: {guessed}."] if guessed else []
    if bay.kind in ("mesh", "step"):
        notes.append("# Until the scan or drawing is there, a prism stands in for it.")
    return notes


def _room(bay: BayAnswer, kind: SurveyKind, guess: float) -> Table:
    """The survey table of a room of the size taped, in the middle of the car."""
    front = guess if bay.front is None else bay.front
    floor = _FLOOR if bay.floor is None else bay.floor
    rear, side, top = front - bay.length, bay.width / 2.0, floor + bay.height
    said: Table = {"kind": kind, "tolerance": _TOLERANCE}
    if kind == "block":
        return {**said, "high": [front, side, top], "low": [rear, -side, floor]}
    if kind == "prism":
        outline = [[front, -side], [front, side], [rear, side], [rear, -side]]
        return {**said, "outline": outline, "top": top, "floor": floor}
    across = [[-side, floor], [side, floor], [side, top], [-side, top]]
    return {**said, "section": [{"at": at, "outline": across} for at in (front, rear)]}
