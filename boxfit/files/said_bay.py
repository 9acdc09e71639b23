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
    """The side the box goes in from."""
    outline: Outline | None = None
    """The hole it must pass, where that is smaller than the bay [mm]."""


class SaidMount(Said):
    """A place of the body that a box may be bolted to: the hole's middle and the body's sheet [mm]."""

    name: Name
    """What the place is called."""
    at: Place
    """Middle of the hole on the surface the foot lies on, [x, y, z] [mm]."""
    faces: WayWord
    """The way that surface looks."""
    bolt: BoltWord
    """Thread of the bolt."""
    body_thickness: Annotated[float, number(bounds.BODY_SHEET)]
    """Of the body's sheet there [mm]."""
    drilled: bool = True
    """Whether the hole is a new one; false where it is there already."""


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
    """What the bay is called."""
    survey: SaidSurvey
    """Its measured shape."""
    opening: SaidOpening | None = None
    """How a box gets in; not asked where left out."""
    keepout: list[SaidKeepout] = Field(default_factory=list)
    """What stays in the bay; one table each."""
    mount: list[SaidMount] = Field(default_factory=list)
    """Where the body may carry a box; one table each."""
    box: SaidBox | None = None
    """What is built otherwise here than in car.toml, key by key."""
