"""What a template shows, one to one: the plans and the sides of every box, as lines in millimetres."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from boxfit.bay import Point
from boxfit.box.fitting import Cutout
from boxfit.box.parts import BoxParts
from boxfit.box.sides import Side, sides_of
from boxfit.box.whole import BuiltBox
from boxfit.sheet.drawing.marks import Circle, Line, Style
from boxfit.surface import Outline

OUTSIDE = "seen from outside"
FIRST: Style = "visible"
SECOND: Style = "hidden"
THIRD: Style = "centre"


@dataclass(frozen=True)
class Template:
    """A shape to cut from paper or card: lines [mm], where it belongs, and what its lines mean.

    `cut` says how many are needed, those that are turned over included.
    """

    box: str
    side: str
    lines: tuple[Line, ...]
    legend: str
    cut: int = 1

    @property
    def extent(self) -> tuple[Point, Point]:
        """The low and the high corner [mm] of all lines."""
        points = [point for line in self.lines for point in (line.start, line.end)]
        xs, ys = zip(*points, strict=True)
        return ((min(xs), min(ys)), (max(xs), max(ys)))


def templates_of(built: tuple[BuiltBox, ...]) -> tuple[Template, ...]:
    """For every box its plan seen from above, then its sides seen from outside, equal ones once."""
    return tuple(one for box in built for one in (*_plans(box.parts), *_sides(box.parts)))


def _plans(parts: BoxParts) -> Iterator[Template]:
    """Floor, flange and cover plate; the floor of every step beside the flange."""
    for number, band in enumerate(parts.tray.bands):
        called = (
            "floor" if number == 0 else f"step floor {number}" if len(parts.tray.bands) > 2 else "step floor"
        )
        lines = [*_outlined(parts.lid.plate.outline, FIRST), *_outlined(band.outline, SECOND)]
        told = ["full line: flange and lid", f"dashed: {called}, outside of the walls on it"]
        if parts.cover_plate and parts.cover_plate.plate.outline != parts.lid.plate.outline:
            lines += _outlined(parts.cover_plate.plate.outline, THIRD)
            told.append("dash and dot: cover plate")
        down = [hole for hole in parts.tray.cutouts if hole.looks == "down"] if number == 0 else []
        lines += [line for hole in down for line in _hole(hole, hole.at[:2])]
        legend = f"seen from above, front of the car to the right; {'; '.join(told)}"
        yield Template(parts.name, f"plan with {called}", tuple(lines), legend)


def _sides(parts: BoxParts) -> Iterator[Template]:
    """Every wall with flange, lid and cover plate over it where it reaches the rim."""
    found: dict[tuple[object, ...], Template] = {}
    for number, band in enumerate(parts.tray.bands, start=1):
        tier = f" {number}" if len(parts.tray.bands) > 1 else ""
        for wall in sides_of(band.outline):
            one = _side(parts, number - 1, wall, f"wall{tier} {wall.name}")
            same = next((key for key in (_key(one), _key(_turned_over(one))) if key in found), None)
            if same is None:
                found[_key(one)] = one
            else:
                first = found[same]
                both = first.legend.replace(OUTSIDE, f"{OUTSIDE}, turned over for the other")
                legend = both if first.cut == 1 else first.legend
                side = f"{first.side} and {one.side.removeprefix('wall ')}"
                found[same] = replace(first, side=side, cut=first.cut + 1, legend=legend)
    return iter(found.values())


def _side(parts: BoxParts, number: int, side: Side, name: str) -> Template:
    """One wall from its lower edge up, seen from outside."""
    import shapely

    band, top = parts.tray.bands[number], number == len(parts.tray.bands) - 1
    base = band.bottom
    blocks = [(0.0, 0.0, side.length, band.top - base)]
    levels = []
    if top:
        blocks += [_over(side, reach, low - base, high - base) for reach, low, high in _heads(parts)]
        levels = [band.top - base]
    outline = shapely.union_all([shapely.box(*block) for block in blocks]).normalize().exterior
    corners: Outline = tuple((round(x, 6) + 0.0, round(y, 6) + 0.0) for x, y in outline.coords[:-1])
    lines = [*_outlined(corners, FIRST)]
    lines += [Line((0.0, level), (side.length, level), SECOND) for level in levels]
    for hole in parts.tray.cutouts:
        along, out = side.local(hole.at[:2])
        on_it = hole.looks == side.name.split()[0] and abs(out) < 0.5 and 0.0 < along < side.length
        if on_it and band.bottom < hole.at[2] < band.top:
            lines += _hole(hole, (along, hole.at[2] - base))
    legend = f"{OUTSIDE}; full line: wall"
    over = ", flange, lid and cover plate" if parts.cover_plate else ", flange and lid"
    return Template(parts.name, name, tuple(lines), f"{legend}{over}; dashed: rim" if top else legend)


def _heads(parts: BoxParts) -> Iterator[tuple[float, float, float]]:
    """How far past the wall, from which level to which [mm]: flange with lid, then the cover plate."""
    rim = parts.tray.bands[-1].top
    yield parts.tray.flange, rim - parts.tray.thickness, parts.lid.plate.top
    cover = parts.cover_plate
    if cover:
        past = parts.lid.plate.low[0] - cover.plate.low[0]
        low = min(cover.plate.top - cover.height, parts.lid.plate.top)
        yield parts.tray.flange + past, low, cover.plate.top


def _over(side: Side, reach: float, low: float, high: float) -> tuple[float, float, float, float]:
    """What stands over a wall, past its convex ends and short of the others."""
    return (-side.turns[0] * reach, low, side.length + side.turns[1] * reach, high)


def _outlined(outline: Outline, style: Style) -> list[Line]:
    """The sides of an outline."""
    return [Line(one, other, style) for one, other in zip(outline, outline[1:] + outline[:1], strict=True)]


def _hole(hole: Cutout, at: Point) -> list[Line]:
    """A cutout, its corners square, about a point."""
    if hole.diameter > 0.0:
        points = Circle(at, hole.diameter / 2.0, FIRST).points
    else:
        (x, y), (wide, high) = at, (hole.size[0] / 2.0, hole.size[1] / 2.0)
        points = ((x - wide, y - high), (x + wide, y - high), (x + wide, y + high), (x - wide, y + high))
    return _outlined(points, FIRST)


def _turned_over(one: Template) -> Template:
    """The same sheet seen from its back: left and right exchanged."""
    (low, _), (high, _) = one.extent

    def over(point: Point) -> Point:
        return (low + high - point[0], point[1])

    return replace(
        one, lines=tuple(replace(line, start=over(line.start), end=over(line.end)) for line in one.lines)
    )


def _key(one: Template) -> tuple[object, ...]:
    """The same for templates of one shape: lines from the left low corner, however they are drawn."""
    low = one.extent[0]

    def place(point: Point) -> Point:
        return (round(point[0] - low[0], 2) + 0.0, round(point[1] - low[1], 2) + 0.0)

    lines = sorted((line.style, *sorted((place(line.start), place(line.end)))) for line in one.lines)
    return (one.box, *lines)
