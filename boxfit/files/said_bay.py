"""What a bay file said, as a whole."""

from typing import Annotated

from pydantic import Field

from boxfit.files import bounds, examples
from boxfit.files.kinds import BoltWord, Name, Outline, Place, WayWord, number
from boxfit.files.said import Said, SaidFile
from boxfit.files.said_box import SaidBox
from boxfit.files.said_keepout import SaidKeepout
from boxfit.files.said_survey import SaidSurvey


class SaidOpening(Said):
    """The side a box comes in from, and the hole [mm] where it is smaller than the bay."""

    way: WayWord
    outline: Outline | None = None


class SaidMount(Said):
    """A place of the body that a box may be bolted to: the hole's middle and the body's sheet [mm]."""

    name: Name
    at: Place
    faces: WayWord
    bolt: BoltWord
    body_thickness: Annotated[float, number(bounds.BODY_SHEET)]
    drilled: bool = True


class SaidBay(SaidFile):
    """A bay file."""

    samples = (
        examples.PRISM_BAY,
        examples.BLOCK_BAY,
        examples.SECTIONS_BAY,
        examples.MESH_BAY,
        examples.STEP_BAY,
    )

    name: Name
    survey: SaidSurvey
    opening: SaidOpening | None = None
    keepout: list[SaidKeepout] = Field(default_factory=list)
    mount: list[SaidMount] = Field(default_factory=list)
    box: SaidBox | None = None
