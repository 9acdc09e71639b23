"""Modules among themselves: spacing, and the room each keeps clear."""

from collections.abc import Sequence
from itertools import combinations, product

from boxfit.judge.distance import face_gaps
from boxfit.judge.finding import SLACK, Finding
from boxfit.judge.turning import Kept, Standing

MOST_TRIES = 20_000
"""Tries after which no free way round is looked for any more: only layouts that tell no faces need any."""


def judge_spacing(standing: Sequence[Standing], spacing: float) -> list[Finding]:
    """Bodies on one level are apart by `spacing` [mm] along at least one axis; a shelf parts levels."""
    findings = []
    for one, other in combinations(standing, 2):
        gap = max(face_gaps(one.body, other.body))
        place = f"{one.place} and {other.place.rsplit(', ', 1)[-1]}"
        if gap < -SLACK:
            findings.append(Finding("module-overlap", place, f"overlap by {-gap:.3f} mm", gap))
        elif gap < spacing - SLACK and abs(one.body.low[2] - other.body.low[2]) <= SLACK:
            text = f"{gap:.3f} mm apart, {spacing:g} mm needed"
            findings.append(Finding("module-spacing", place, text, gap))
    return findings


def room_depth(one: Standing, other: Standing, shared: bool) -> float:
    """How deep [mm] the other's body or room reaches into this one's room, 0 or less where it does not.

    Where `shared`, two that look at each other on one level keep one room between them: the rooms at those
    faces may overlap, no body may stand in either.
    """
    depths = [-max(face_gaps(room.slab, other.body)) for room in one.kept()]
    is_level = abs(one.body.low[2] - other.body.low[2]) <= SLACK
    depths += [
        -max(face_gaps(room.slab, another.slab))
        for room, another in product(one.kept(), other.kept())
        if not (shared and is_level and _face_to_face(room, another))
    ]
    return max(depths, default=0.0)


def _face_to_face(room: Kept, another: Kept) -> bool:
    """True for rooms at opposite faces; no wider than these, they only meet where the faces look so."""
    return room.axis == another.axis and room.sign == -another.sign


def judge_rooms(standing: Sequence[Standing], shared: bool) -> list[Finding]:
    """The room of every module holds no part of another, nor of another's room unless it may be shared.

    Bodies that overlap are told of as such.
    """
    findings = []
    for one, other in combinations(standing, 2):
        depth = max(room_depth(one, other, shared), room_depth(other, one, shared))
        apart = max(face_gaps(one.body, other.body)) >= -SLACK
        if apart and depth > SLACK:
            place = f"{one.place} and {other.place.rsplit(', ', 1)[-1]}"
            findings.append(Finding("module-room", place, f"room blocked {depth:.3f} mm deep", depth))
    return findings


def choose_ways(ways: Sequence[tuple[Standing, ...]], shared: bool) -> tuple[Standing, ...]:
    """One way to stand for each module such that no room is blocked; the first ones where none is found."""
    chosen: list[Standing] = []
    tried = [0]
    for _ in range(MOST_TRIES):
        if len(chosen) == len(ways):
            return tuple(chosen)
        options = ways[len(chosen)][tried[-1] :]
        free = next((k for k, option in enumerate(options) if _keeps_clear(option, chosen, shared)), None)
        if free is not None:
            tried[-1] += free + 1
            chosen.append(options[free])
            tried.append(0)
        elif chosen:
            chosen.pop()
            tried.pop()
        else:
            break
    return tuple(options[0] for options in ways)


def _keeps_clear(one: Standing, others: Sequence[Standing], shared: bool) -> bool:
    """True where no room of either is blocked."""
    return all(
        max(room_depth(one, other, shared), room_depth(other, one, shared)) <= SLACK for other in others
    )
