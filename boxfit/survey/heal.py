"""A surface as a scanner or another program left it, made fit to measure from, and what was done told."""

from dataclasses import dataclass

import numpy as np

from boxfit.bay import Way
from boxfit.surface import Reading, Surface
from boxfit.survey.areas import areas_of, span_of, volumes_of
from boxfit.survey.bridge import Bridged, Bridging, bridged
from boxfit.survey.edges import Edges, Flags, Numbers, edges_of
from boxfit.survey.fault import SurveyError
from boxfit.survey.islands import without_strays
from boxfit.survey.merge import merged, merged_points, single, without_unused
from boxfit.survey.winding import Winding, alike, inward, turned

SHORTEST, LONGEST = 30.0, 10_000.0
"""Largest extents [mm] between which a surface is believed; beyond, its unit is wrong."""
LEAST_BAY = 120.0
"""No bay is shorter [mm]; one of 3 m in inches, taken for mm, would be. Common practice, no source."""
_RATIOS = {
    ("m", "mm"): 0.001,
    ("m", "cm"): 0.01,
    ("cm", "mm"): 0.1,
    ("in", "mm"): 1 / 25.4,
    ("mm", "cm"): 10.0,
    ("mm", "in"): 25.4,
    ("cm", "m"): 100.0,
    ("mm", "m"): 1000.0,
    ("in", "m"): 1000.0 / 25.4,
    ("m", "in"): 0.0254,
}
"""What the largest extent is multiplied with when the unit is changed from one to another."""
_PLAUSIBLE = (200.0, 3000.0)
_MOST_LOOSE = 0.05
"""Share of the area that may be left out as strays."""
_FLAT = 1e-4
_NO_AREA = 1e-12
_ROUNDS = 5
_MOST_OPEN = 200_000
"""Open edges; the longest opening of the finest scan has some thousands."""


@dataclass(frozen=True, eq=False)
class Healed:
    """The surface, and what was done to it, for the reader."""

    surface: Surface
    told: tuple[str, ...]


def healed(surface: Surface, reads: Reading, holes: float, strays: float, way: Way | None) -> Healed:
    """The surface [mm] cleaned; read as "room" also closed and with its outside out.

    Gaps of up to `holes` [mm] are bridged, islands of up to `strays` [mm] left out; a larger gap is closed
    only at the opening's side. Raises SurveyError where that does not make a room.
    """
    told: list[str] = []
    surface = _single(surface, told)
    surface = _without_strays(surface, strays, told)
    surface, edges = _without_flaps(surface, max(holes, strays), told)
    winding = alike(edges)
    if reads == "room":
        _check_not_flat(surface)
    whole = bridged(surface, edges, winding, Bridging(reads, holes, way))
    told += whole.told
    found = whole.surface
    if reads == "room":
        found = _outside_out(whole, winding, told)
        _check_volume(found)
    return Healed(_without_slivers(found, told), tuple(told))


def check_bay(surface: Surface, unit: str) -> None:
    """Raises SurveyError where a surface [mm] is too small for a bay in the unit it was taken in."""
    extent = _extent(surface)
    if extent < LEAST_BAY:
        raise _wrong_unit(extent, unit)


def _single(surface: Surface, told: list[str]) -> Surface:
    """Points and triangles once each. Raises SurveyError where nothing is left."""
    surface = merged(surface)
    triangles = single(surface.triangles)
    double = len(surface.triangles) - len(triangles)
    if double:
        told.append(f"{double:,} triangles that were there twice left out")
    if not len(triangles):
        raise _wrong_unit(0.0)
    return Surface(surface.points, triangles)


def _without_strays(surface: Surface, strays: float, told: list[str]) -> Surface:
    """Without loose islands. Raises SurveyError where the unit or the surface makes no bay."""
    surface, sizes, share = without_strays(surface, strays)
    extent = _extent(surface)
    if not SHORTEST <= extent <= LONGEST:
        raise _wrong_unit(extent)
    if share > _MOST_LOOSE:
        raise SurveyError(
            "file",
            f"falls apart: {len(sizes)} pieces of up to {strays:g} mm are {share:.0%} of its surface",
            "join (weld, merge) its points in the scanning program, or set strays smaller",
        )
    if len(sizes):
        largest = float(sizes.max())
        told.append(f"{len(sizes)} loose islands of up to {largest:.1f} mm left out (strays = {strays:g})")
    return surface


def _without_flaps(surface: Surface, limit: float, told: list[str]) -> tuple[Surface, Edges]:
    """Joined where points nearly meet, and without small triangles that hang loose on an edge of others."""
    edges = edges_of(surface.triangles)
    if len(edges.open_sides) > _MOST_OPEN:
        raise SurveyError(
            "file",
            f"is in shreds: {len(edges.open_sides)} edges have a triangle on one side only",
            "join (weld, merge) its points in the scanning program before saving it",
        )
    joined = merged_points(surface, np.unique(edges.triangles.ravel()[_both_ends(edges)]))
    if joined is not surface:
        surface = Surface(joined.points, single(joined.triangles))
        edges = edges_of(surface.triangles)
    flaps = 0
    for _ in range(_ROUNDS):
        crowded, loose = _marked(edges, edges.crowded_sides), _marked(edges, edges.open_sides)
        corners = surface.points[surface.triangles[crowded & loose]]
        out = np.flatnonzero(crowded & loose)[np.ptp(corners, axis=1).max(axis=1) <= limit]
        if not len(out):
            break
        flaps += len(out)
        surface = without_unused(surface.points, np.delete(surface.triangles, out, axis=0))
        edges = edges_of(surface.triangles)
    if flaps:
        told.append(f"{flaps} triangles that hang loose on an edge left out")
    crowds = int(np.count_nonzero(edges.counts > 2))
    if crowds:
        told.append(f"{crowds} edges where more than two triangles meet")
    return surface, edges


def _both_ends(edges: Edges) -> Numbers:
    sides = edges.open_sides
    return np.concatenate([sides, np.where(sides % 3 == 2, sides - 2, sides + 1)])


def _marked(edges: Edges, sides: Numbers) -> Flags:
    marks = np.zeros(len(edges.triangles), dtype=np.bool_)
    marks[sides // 3] = True
    return marks


def _outside_out(whole: Bridged, winding: Winding, told: list[str]) -> Surface:
    wrong = inward(whole.surface, whole.sheet, winding.sheets)[whole.sheet]
    count = int(np.count_nonzero(winding.turn ^ wrong[: len(winding.turn)]))
    if count:
        told.append(f"{count:,} of {len(winding.turn):,} triangles turned to have their outside out")
    return Surface(whole.surface.points, turned(whole.surface.triangles, wrong))


def _without_slivers(surface: Surface, told: list[str]) -> Surface:
    """Without triangles of no area; they were of use only to join others."""
    extent = _extent(surface)
    slivers = areas_of(surface) <= _NO_AREA * extent**2
    if not slivers.any():
        return surface
    told.append(f"{np.count_nonzero(slivers)} triangles of no area left out")
    return without_unused(surface.points, surface.triangles[~slivers])


def _extent(surface: Surface) -> float:
    low, high = span_of(surface.points)
    return float((high - low).max())


def _check_not_flat(surface: Surface) -> None:
    arms = surface.points - surface.points.mean(axis=0)
    spread = np.linalg.eigvalsh(arms.T @ arms)
    if spread[0] <= _FLAT**2 * spread[2]:
        raise _no_volume()


def _check_volume(surface: Surface) -> None:
    low, high = span_of(surface.points)
    if float(volumes_of(surface).sum()) <= _FLAT * float((high - low).prod()):
        raise _no_volume()


def _no_volume() -> SurveyError:
    return SurveyError(
        "file",
        "encloses no volume",
        'save the inside of the bay as one surface; metal as it stands is read with reads = "body"',
    )


def _wrong_unit(extent: float, now: str = "") -> SurveyError:
    """The largest extent [mm] is none of a bay; `now` is the unit it was taken in, where that is known."""
    low, high = _PLAUSIBLE
    better = [
        f'"{other}" where it is "{unit}" now ({extent * ratio:.0f} mm)'
        for (unit, other), ratio in _RATIOS.items()
        if low <= extent * ratio <= high and now in ("", unit)
    ]
    fitting = f"set unit = {', '.join(better)}"
    remedy = fitting if better else "see how large the scan is in its file, and set unit"
    return SurveyError("unit", f"makes the bay {extent:.4g} mm long", remedy)
