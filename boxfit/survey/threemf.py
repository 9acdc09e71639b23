"""Reads .3mf: a zip with a model in XML, by the 3MF Core Specification (3MF Consortium), sections 2 to 4.

Objects hold triangles or are put together from others; what the build lists is taken, at its place.
Objects in other parts of the same file (Production Extension) are found too.
"""

from typing import BinaryIO

import numpy as np
from numpy.typing import NDArray

from boxfit.surface import Surface
from boxfit.survey.raw import MOST_TRIANGLES, broken, too_many_triangles
from boxfit.survey.threemf_part import MOST_PLACED, Named, Object, Place, part_in
from boxfit.survey.unpacked import Unpacked


def read_3mf(file: BinaryIO) -> Surface:
    """All that the build lists, as it is placed. Raises SurveyError."""
    with Unpacked(file) as files:
        root = files.model_name()
        model = part_in(files.chunks(root), root)
        objects = dict(model.objects)
        for name in sorted(model.other_files() - {root}):
            objects.update(part_in(files.chunks(name), name).objects)
    return _put_together(model.build, objects)


def unit_of_3mf(file: BinaryIO) -> str | None:
    """The unit the model states, by its name in the file, None where it states none. Raises SurveyError."""
    with Unpacked(file) as files:
        root = files.model_name()
        return part_in(files.chunks(root), root, only_unit=True).unit


def _put_together(build: list[tuple[Named, Place]], objects: dict[Named, Object]) -> Surface:
    """All triangles at their places; what is mirrored keeps its outside outside."""
    points: list[NDArray[np.float64]] = [np.zeros((0, 3))]
    triangles: list[NDArray[np.int64]] = [np.zeros((0, 3), np.int64)]
    before, count, placed = 0, 0, 0
    waiting = [(named, _matrix(place)) for named, place in reversed(build)]
    while waiting:
        named, matrix = waiting.pop()
        placed += 1
        if named not in objects:
            raise broken(f"it puts an object {named[1][:20]!a} to use that is not there")
        if placed + len(waiting) > MOST_PLACED:
            raise broken(f"it places more than {MOST_PLACED} objects")
        found = objects[named]
        waiting.extend((other, _matrix(place) @ matrix) for other, place in reversed(found.components))
        own = found.mesh.as_surface()
        count += len(own.triangles)
        if count > MOST_TRIANGLES:
            raise too_many_triangles()
        if len(own.triangles) and not 0 <= own.triangles.min() <= own.triangles.max() < len(own.points):
            raise broken("a triangle names a point that is not there")
        used, corners = np.unique(own.triangles, return_inverse=True)
        points.append(own.points[used] @ matrix[:3, :3] + matrix[3, :3])
        triangles.append(corners.reshape(-1, 3)[:, :: -1 if np.linalg.det(matrix) < 0 else 1] + before)
        before += len(used)
    return Surface(np.concatenate(points), np.concatenate(triangles))


def _matrix(place: Place) -> NDArray[np.float64]:
    """The place as a matrix that a row (x, y, z, 1) is multiplied with."""
    return np.column_stack([np.array(place).reshape(4, 3), (0.0, 0.0, 0.0, 1.0)])
