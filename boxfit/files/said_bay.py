"""What a bay file said, as a whole."""

from pydantic import Field

from boxfit.files import examples
from boxfit.files.kinds import Name, Outline, WayWord
from boxfit.files.said import Said, SaidBox, SaidFile
from boxfit.files.said_keepout import SaidKeepout
from boxfit.files.said_survey import SaidSurvey


class SaidOpening(Said):
    """The side a box comes in from, and the hole [mm] where it is smaller than the bay."""

    way: WayWord
    outline: Outline | None = None


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
    box: SaidBox | None = None
