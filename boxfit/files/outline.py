"""Is a measured outline a shape at all?"""

from math import dist

from boxfit.bay import Point

_SAME_PLACE = 0.01
_NO_AREA = 1.0


def signed_area(points: list[Point]) -> float:
    """Area [mm2] inside the outline, above zero where it runs counter-clockwise.

    >>> signed_area([(0, 0), (4, 0), (4, 3), (0, 3)])
    12.0
    """
    following = points[1:] + points[:1]
    return sum(x * v - u * y for (x, y), (u, v) in zip(points, following, strict=True)) / 2.0


def counter_clockwise(points: list[Point]) -> tuple[Point, ...]:
    """The outline run counter-clockwise, starting at the same point.

    >>> counter_clockwise([(0, 0), (0, 3), (4, 0)])
    ((0, 0), (4, 0), (0, 3))
    """
    return tuple(points) if signed_area(points) > 0.0 else (points[0], *reversed(points[1:]))


def fault(points: list[Point]) -> tuple[str, str] | None:
    """What is wrong with the outline and what to do, None where it is a shape.

    Points nearer than 0.01 mm are the same point; less than 1 mm2 is no shape (common practice, no
    source).

    >>> fault([(0, 0), (4, 0), (4, 3), (0, 3), (0, 0)])
    ('must not repeat a point: point 5 is point 1 again', 'leave the last point out, the outline closes')
    """
    from shapely import MultiPoint, Polygon, is_valid_reason

    count = len(points)
    for place, point in enumerate(points):
        following = (place + 1) % count
        if dist(point, points[following]) < _SAME_PLACE:
            if following == 0:
                return _repeated(place, 0, "leave the last point out, the outline closes")
            return _repeated(following, place, f"leave point {following + 1} out")
    if MultiPoint(points).convex_hull.area < _NO_AREA:
        return "must enclose an area: its points lie on one line", "measure a point off that line"
    shape = Polygon(points)
    if not shape.is_valid:
        place_found = is_valid_reason(shape).partition("[")[2].rstrip("]").split()
        near = f" near [{', '.join(f'{float(each):.0f}' for each in place_found)}]" if place_found else ""
        return (
            f"must not cross or touch itself{near}",
            "give the points in order, walking round the edge once",
        )
    if shape.area < _NO_AREA:
        return f"must enclose an area of at least {_NO_AREA:.0f} mm2", "check the points, they are in mm"
    return None


def _repeated(again: int, first: int, remedy: str) -> tuple[str, str]:
    return f"must not repeat a point: point {again + 1} is point {first + 1} again", remedy
