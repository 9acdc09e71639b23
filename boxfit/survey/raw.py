"""What the readers of mesh files share: limits, raw triangles, text taken a block of lines at a time.

The readers are our own, not trimesh's: its own let a broken or hostile file take several gigabytes, follow
references to other files, or quietly drop what they cannot read.
"""

from array import array
from collections.abc import Iterator
from itertools import pairwise
from typing import BinaryIO

import numpy as np

from boxfit.surface import Surface
from boxfit.survey.fault import SurveyError

MOST_TRIANGLES = 2_000_000
MOST_POINTS = 3 * MOST_TRIANGLES
"""As many as triangles that share none need."""

_BLOCK = 1 << 22
AGAIN = "save it again from the scanning program, as binary .stl or .ply"


class RawMesh:
    """Points and triangles as they are read, in plain memory: a number takes eight bytes, no more."""

    def __init__(self) -> None:
        self.points = array("d")
        self.triangles = array("q")

    def check_room(self) -> None:
        """Raises SurveyError once there are more points than the program takes."""
        if len(self.points) > 3 * MOST_POINTS:
            raise too_many_points()

    def add_polygon(self, corners: list[int]) -> None:
        """A flat polygon as triangles about its first corner. Raises SurveyError for too many."""
        for second, third in pairwise(corners[1:]):
            self.triangles.extend((corners[0], second, third))
        if len(self.triangles) > 3 * MOST_TRIANGLES:
            raise too_many_triangles()

    def as_surface(self) -> Surface:
        """The surface, once everything is read."""
        points = np.frombuffer(self.points, dtype=np.float64) if self.points else np.zeros(0)
        triangles = np.frombuffer(self.triangles, dtype=np.int64) if self.triangles else np.zeros(0, np.int64)
        return Surface(points.reshape(-1, 3), triangles.reshape(-1, 3))


def too_many_triangles() -> SurveyError:
    """More than the program takes."""
    return SurveyError(
        "file", f"has more than {MOST_TRIANGLES} triangles", "thin the scan out to a triangle every 2 to 5 mm"
    )


def too_many_points() -> SurveyError:
    """More than the program takes, even for triangles that share none."""
    return SurveyError(
        "file", f"has more than {MOST_POINTS} points", "thin the scan out to a point every 2 to 5 mm"
    )


def cut_short(what: str) -> SurveyError:
    """The file ends before it should."""
    return SurveyError("file", f"is cut short: {what}", f"copy it again, or {AGAIN}")


def broken(what: str) -> SurveyError:
    """The file does not keep to its format."""
    return SurveyError("file", f"is broken: {what}", AGAIN)


def blocks_of_lines(file: BinaryIO) -> Iterator[list[bytes]]:
    """All lines from where the file stands, some megabytes at a time.

    Raises SurveyError where a line is too long for any mesh.
    """
    rest = b""
    while block := file.read(_BLOCK):
        block = rest + block
        end = max(block.rfind(b"\n"), block.rfind(b"\r")) + 1
        if not end:
            raise broken("it has a line of several megabytes")
        yield block[:end].splitlines()
        rest = block[end:]
    yield rest.splitlines()
