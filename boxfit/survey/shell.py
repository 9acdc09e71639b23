"""A room of any shape, from a healed surface."""

from collections.abc import Sequence

import numpy as np

from boxfit.bay import Opening
from boxfit.surface import Reading, Shell, Surface
from boxfit.survey.fault import SurveyError
from boxfit.survey.leaks import refuse_leaks
from boxfit.survey.open_side import opening_takes
from boxfit.survey.reached import space_within
from boxfit.survey.views import outlines_of
from boxfit.survey.volume import volume_of


def shell_of(
    surface: Surface,
    reads: Reading,
    opening: Opening | None,
    tolerance: float,
    fixed: Sequence[Surface],
    told: tuple[str, ...],
) -> Shell:
    """The room a healed surface [mm] bounds ("room") or holds as metal ("body").

    A "room" is closed and runs outward. Of a "body", the room is what can be reached from the opening without
    crossing metal, or what stays in the bay (`fixed`), grown by the tolerance [mm].

    Raises:
        SurveyError: for a body without an opening, with its opening closed, or with another way out.
    """
    if reads == "body":
        return _body_shell(surface, opening, tolerance, fixed, told)
    opens = np.zeros(len(surface.triangles), dtype=bool)
    if opening is not None:
        opens = opening_takes(surface, opening.way, tolerance)
    plan, side, rear = outlines_of(surface)
    volume = volume_of(surface)
    return Shell(surface, reads, surface.low, surface.high, opens, volume, plan, side, rear, told)


def _body_shell(
    surface: Surface,
    opening: Opening | None,
    tolerance: float,
    fixed: Sequence[Surface],
    told: tuple[str, ...],
) -> Shell:
    """The room among metal."""
    if opening is None:
        raise SurveyError(
            "reads",
            "a body needs an [opening]: the room is what can be reached from it",
            'add an [opening] with its way, or reads = "room" if the scan is closed and bounds the room',
        )
    space = space_within(surface, fixed, opening, tolerance)
    rims = refuse_leaks(space, opening)
    plan, side, rear = space.outlines()
    told = (*told, *rims, f"the room's volume is a working figure, from cells of {space.grid.pitch:.1f} mm")
    opens = np.zeros(len(surface.triangles), dtype=bool)
    return Shell(surface, "body", surface.low, surface.high, opens, space.volume, plan, side, rear, told)
