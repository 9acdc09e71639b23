"""Ways out of a scanned body other than its opening: they are shown to the user, never filled in silently."""

from collections.abc import Iterator
from math import hypot, isfinite

import numpy as np

from boxfit.bay import Opening, Way
from boxfit.survey.fault import SurveyError
from boxfit.survey.open_side import TOWARDS
from boxfit.survey.reached import Cells, Space
from boxfit.survey.throat import LOOK, Throat, throat_of

MOST = 5
"""So many leaks are looked for."""
PLUG = 3.0
"""A leak is closed so much wider than it is [cells] while the next one is looked for."""

AXES = "xyz"
REMEDY = (
    "close the scan there, or put a keep-out across it; a larger `holes` bridges a hole that may be bridged; "
    "where the bay ends at an edge of the opening, give the opening's outline"
)


def refuse_leaks(space: Space, opening: Opening) -> tuple[str, ...]:
    """Makes sure the space reached from the opening ends at metal, and says where its rim is low.

    The flood may leave the block round the metal through the opening's own side only, and over a rim that is
    lower than the block: there a box ends at the block as well.

    Raises:
        SurveyError: if the opening is closed, or there is another way out.
    """
    if not space.entry.any():
        raise SurveyError(
            "file",
            f"the opening towards {_named(opening.way)} is closed by the scan",
            "turn the scan or the opening's way, give the opening's outline, or cut the scan open there",
        )
    leaks = _leaks(space, opening)
    if leaks:
        raise SurveyError("file", f"leaks: {_told(leaks)}", REMEDY)
    return tuple(_low_rims(space, opening))


def _leaks(space: Space, opening: Opening) -> list[Throat]:
    """The widest leaks: each is closed while the next is looked for."""
    from scipy import ndimage

    leaks: list[Throat] = []
    ends = _ends(space, opening)
    if ends.any():
        clearance = ndimage.distance_transform_cdt(~space.metal, "chessboard")
    while ends.any() and len(leaks) < MOST:
        leaks.append(throat_of(space, clearance, ends))
        space = space.less(_plug(space, leaks[-1]))
        ends = _ends(space, opening)
    return leaks


def _outer_sides(space: Space, opening: Opening) -> Iterator[tuple[Way, Cells]]:
    """What is reached of each side of the block but the opening's, in two axes."""
    for way, (axis, sign) in TOWARDS.items():
        if way != opening.way:
            yield way, np.moveaxis(space.reached, axis, 0)[-1 if sign > 0 else 0]


def _over_the_rim(side: Cells, way: Way, opening: Opening) -> Cells:
    """The patches of a side that touch the opening's edge."""
    from scipy import ndimage

    (axis, _), (along, sign) = TOWARDS[way], TOWARDS[opening.way]
    if axis == along:
        return np.zeros_like(side)
    part, count = ndimage.label(side)
    edge = np.moveaxis(part, along - (along > axis), 0)[-1 if sign > 0 else 0]
    touching = np.zeros(count + 1, dtype=bool)
    touching[edge] = True
    touching[0] = False
    found: Cells = touching[part]
    return found


def _ends(space: Space, opening: Opening) -> Cells:
    """The cells at the sides of the block where what is reached leaks out."""
    ends = np.zeros_like(space.reached)
    for way, side in _outer_sides(space, opening):
        axis, sign = TOWARDS[way]
        layer = np.moveaxis(ends, axis, 0)[-1 if sign > 0 else 0]
        layer |= side & ~_over_the_rim(side, way, opening)
    return ends


def _low_rims(space: Space, opening: Opening) -> Iterator[str]:
    """Tells of each side at which the rim is lower than the block."""
    along, sign = TOWARDS[opening.way]
    for way, side in _outer_sides(space, opening):
        axis, _ = TOWARDS[way]
        over = _over_the_rim(side, way, opening)
        if over.any():
            cells = np.flatnonzero(over.any(axis=1 - (along - (along > axis))))
            deepest = space.grid.centres(along)[cells[0] if sign > 0 else cells[-1]]
            rim = deepest - sign * space.kept
            yield (
                f"open at the rim towards {_named(way)}, as far as {AXES[along]} {rim:.0f}; "
                "boxes end at the scan's extent"
            )


def _plug(space: Space, leak: Throat) -> Cells:
    """A ball over a leak."""
    pitch = space.grid.pitch
    sizes = [size if isfinite(size) else 2 * LOOK * pitch for size in (leak.width, leak.height)]
    radius = hypot(*sizes) / 2 + PLUG * pitch
    x, y, z = ((space.grid.centres(k) - leak.at[k]) ** 2 for k in range(3))
    ball: Cells = x[:, None, None] + y[None, :, None] + z[None, None, :] <= radius**2
    return ball


def _told(leaks: list[Throat]) -> str:
    """The first leak in full, and where the others are."""
    first = leaks[0]
    text = f"{_size(first)} at {_place(first)}, towards {_named(_way(first))}"
    if len(leaks) == 1:
        return text
    least = "at least " if len(leaks) == MOST else ""
    return f"{text}, and {least}{len(leaks) - 1} more, at {', '.join(_place(leak) for leak in leaks[1:])}"


def _size(leak: Throat) -> str:
    """How large a leak is, to 5 mm: as good as the cells tell it."""
    if not isfinite(leak.width):
        return "a wide way out"
    width, height = (f"{5 * round(size / 5):.0f}" for size in (leak.width, leak.height))
    return f"a way out about {width} x {height} mm wide"


def _place(leak: Throat) -> str:
    return "({:.0f}, {:.0f}, {:.0f})".format(*leak.at)


def _way(leak: Throat) -> Way:
    """The way the leak mostly leads."""
    return max(TOWARDS, key=lambda way: leak.towards[TOWARDS[way][0]] * TOWARDS[way][1])


def _named(way: Way) -> str:
    """The way as it is said."""
    return {"up": "above", "down": "below"}.get(way, f"the {way}")
