"""Prisms and blocks as surfaces of triangles, coarse and fine."""

from dataclasses import replace

import numpy as np
import shapely

from boxfit.bay import Bay, Block, Prism, Shell
from boxfit.surface import Surface
from boxfit.survey.shell import shell_of


def prism_surface(room: Prism) -> Surface:
    """A prism as few triangles, wound outwards."""
    outline, count = room.outline, len(room.outline)
    points = np.array([(*point, level) for level in (room.floor, room.top) for point in outline])
    number = {point: k for k, point in enumerate(outline)}
    triangles = []
    for part in shapely.get_parts(shapely.constrained_delaunay_triangles(shapely.Polygon(outline))):
        ring = part.exterior if part.exterior.is_ccw else part.exterior.reverse()
        a, b, c = (number[x, y] for x, y in ring.coords[:3])
        triangles += [(a, c, b), (a + count, b + count, c + count)]
    for a in range(count):
        b = (a + 1) % count
        triangles += [(a, b, b + count), (a, b + count, a + count)]
    return Surface(points, np.array(triangles))


def block_surface(block: Block) -> Surface:
    """A block as twelve triangles, wound outwards."""
    (x, y, z), (a, b, c) = block.low, block.high
    return prism_surface(Prism(((x, y), (a, y), (a, b), (x, b)), z, c))


def finer(surface: Surface, longest: float) -> Surface:
    """The same surface in triangles without a side longer than this [mm]."""
    from trimesh import remesh

    points, triangles = remesh.subdivide_to_size(  # type: ignore[no-untyped-call]
        surface.points, surface.triangles, longest, max_iter=20
    )
    merged, place = np.unique(np.round(points, 9), axis=0, return_inverse=True)
    return Surface(merged, place.reshape(-1)[triangles], surface.off)


def as_shell(bay: Bay, longest: float = np.inf) -> Bay:
    """The bay with its prism as a shell."""
    assert isinstance(bay.room, Prism)
    surface = prism_surface(bay.room)
    surface = finer(surface, longest) if longest < np.inf else surface
    shell = shell_of(surface, "room", bay.opening, bay.tolerance, (), ())
    return replace(bay, room=shell)


def room_of(bay: Bay) -> Shell:
    """The bay's room, which is a shell."""
    assert isinstance(bay.room, Shell)
    return bay.room
