"""Numbers of a file as places and outlines."""

from boxfit.files.outline import counter_clockwise
from boxfit.surface import Outline, Vector


def vector(said: list[float]) -> Vector:
    """Three numbers of a file as a place [mm], or as angles [degrees]."""
    x, y, z = said
    return (x, y, z)


def outline(said: list[list[float]]) -> Outline:
    """Pairs of numbers of a file as an outline [mm], counter-clockwise."""
    return counter_clockwise([(a, b) for a, b in said])
