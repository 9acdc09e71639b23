"""Rooms and keep-outs of triangles for the tests of this part: prisms cut into triangles by hand."""

from dataclasses import replace
from itertools import pairwise
from typing import Literal

import numpy as np

from boxfit.bay import Bay, Keepout, Opening, Point, Prism, Shell, Surface, Vector
from boxfit.report.room import outline_area
from tests.report.samples import bay, rectangle

Triangle = tuple[int, int, int]


def prism_surface(outline: tuple[Point, ...], floor: float, top: float, pieces: int = 1) -> Surface:
    """A prism as triangles: floor and top fanned from the first corner, every wall in so many pieces.

    For outlines that can be fanned from their first corner. Triangles run counter-clockwise from outside.
    """
    ring: list[Point] = []
    for (x, y), (a, b) in pairwise((*outline, outline[0])):
        ring += [(x + (a - x) * k / pieces, y + (b - y) * k / pieces) for k in range(pieces)]
    count = len(ring)
    points = [(x, y, z) for z in (floor, top) for x, y in ring]
    found: list[Triangle] = []
    for k in range(count):
        following = (k + 1) % count
        found += [(k, following, k + count), (following, following + count, k + count)]
    for k in range(1, count - 1):
        found += [(0, k + 1, k), (count, count + k, count + k + 1)]
    return Surface(np.array(points), np.array(found))


def as_shell(
    prism: Prism, reads: Literal["room", "body"] = "room", pieces: int = 1, off: float = 0.0
) -> Shell:
    """A prism as a room of any shape."""
    surface = replace(prism_surface(prism.outline, prism.floor, prism.top, pieces), off=off)
    (x, y, _), (a, b, _) = surface.low, surface.high
    return Shell(
        surface, reads, surface.low, surface.high, np.zeros(len(surface.triangles), dtype=bool),
        outline_area(prism.outline) * (prism.top - prism.floor), (prism.outline,),
        (rectangle((x, prism.floor), (a, prism.top)),), (rectangle((y, prism.floor), (b, prism.top)),),
    )  # fmt: skip


def with_shells(found: Bay, pieces: int = 1) -> Bay:
    """A bay with its prism cut into triangles."""
    assert isinstance(found.room, Prism)
    return replace(found, room=as_shell(found.room, pieces=pieces))


def ball(middle: Vector, radius: float, rings: int = 12) -> Surface:
    """A round solid in as many rings of triangles."""
    import trimesh

    solid = trimesh.creation.uv_sphere(radius=radius, count=[rings, 2 * rings])
    return Surface(np.asarray(solid.vertices) + middle, np.asarray(solid.faces))


def scanned() -> Bay:
    """A boot as scanned: a slanting rear wall, a sweep that moves, a pipe that gets hot, a bracket."""
    profile = ((-2550.0, 330.0), (-1990.0, 330.0), (-1990.0, 700.0), (-2400.0, 700.0))
    points = np.array([(x, y, z) for y in (480.0, -480.0) for x, z in profile])
    quads = [(0, 1, 2, 3), (7, 6, 5, 4), *((k, k + 4, (k + 1) % 4 + 4, (k + 1) % 4) for k in range(4))]
    triangles = np.array([t for a, b, c, d in quads for t in ((a, b, c), (a, c, d))])
    surface = Surface(points, triangles, 0.4)
    shell = Shell(
        surface, "room", surface.low, surface.high, np.zeros(12, dtype=bool), 485.0 * 370.0 * 960.0,
        (rectangle((-2550.0, -480.0), (-1990.0, 480.0)),), (profile,),
        (rectangle((-480.0, 330.0), (480.0, 700.0)),),
        ("3 stray islands of at most 8 mm left out", "2 holes of at most 12 mm bridged"),
    )  # fmt: skip
    plain = bay("scanned boot", rectangle((0.0, 0.0), (1.0, 1.0)), (0.0, 1.0), opening=Opening("up"))
    keepouts = (
        Keepout("boot hinge", ball((-2050.0, 420.0, 640.0), 70.0, 24), 28.0, reason="moving"),
        Keepout("exhaust", ball((-2200.0, -440.0, 360.0), 50.0), 33.0, True, reason="hot"),
        Keepout("bracket", ball((-2480.0, 430.0, 350.0), 30.0), 13.0, reason="sharp edge"),
    )
    return replace(plain, room=shell, keepouts=keepouts)
