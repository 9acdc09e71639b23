"""Edges as they come from a solid, made fit for drawing: joined, and not drawn twice over one another."""

from collections.abc import Iterable
from math import atan2, cos, hypot, pi, sin

from boxfit.sheet.drawing.marks import Arc, Circle, Line, Style

CLOSE = 0.01
"""Lines this near [mm of the thing] are one."""
SQUARE = (0.0, pi / 2.0, pi)
"""Angles that a piece takes exactly when it is near."""
Drawn = Line | Arc | Circle
Span = tuple[float, float]
_Track = tuple[float, float]
"""The line without ends that a piece lies on: its angle and its distance from the origin."""


def tidied(marks: Iterable[Drawn]) -> tuple[Drawn, ...]:
    """Straight pieces on one track joined; hidden ones left out where a visible one lies; rounds once."""
    tracks: dict[Style, dict[_Track, list[Span]]] = {}
    rounds: dict[tuple[float, ...], Drawn] = {}
    for mark in marks:
        if not isinstance(mark, Line):
            ends = (mark.start, mark.end) if isinstance(mark, Arc) else ()
            key = tuple(round(value, 2) for value in (*mark.centre, mark.radius, *ends))
            rounds.setdefault(key, mark)
        elif hypot(mark.end[0] - mark.start[0], mark.end[1] - mark.start[1]) > CLOSE:
            track, span = _track(mark)
            tracks.setdefault(mark.style, {}).setdefault(track, []).append(span)
    joined = {style: {key: union(spans) for key, spans in found.items()} for style, found in tracks.items()}
    lines: list[Drawn] = []
    for style, found in sorted(joined.items(), reverse=True):
        for track, spans in sorted(found.items()):
            over = joined.get("visible", {}).get(track, []) if style == "hidden" else []
            lines += [_line(track, span, style) for span in without(spans, over)]
    return (*lines, *(rounds[key] for key in sorted(rounds)))


def _track(line: Line) -> tuple[_Track, Span]:
    """The track of a piece, and from where to where on it the piece runs."""
    (x, y), (a, b) = line.start, line.end
    exact = atan2(b - y, a - x) % pi
    angle = next((square for square in SQUARE if abs(exact - square) < 1e-4), round(exact, 5)) % pi
    along = (cos(angle), sin(angle))
    away = round((x + a) / 2.0 * -along[1] + (y + b) / 2.0 * along[0], 2)
    low, high = sorted((x * along[0] + y * along[1], a * along[0] + b * along[1]))
    return (angle, away + 0.0), (low, high)


def _line(track: _Track, span: Span, style: Style) -> Line:
    """A piece of a track."""
    (angle, away), (low, high) = track, span
    along = (cos(angle), sin(angle))

    def point(at: float) -> tuple[float, float]:
        return (
            round(at * along[0] - away * along[1], 4) + 0.0,
            round(at * along[1] + away * along[0], 4) + 0.0,
        )

    return Line(point(low), point(high), style)


def union(spans: Iterable[Span]) -> list[Span]:
    """Spans joined where they touch.

    >>> union([(3.0, 5.0), (0.0, 1.0), (1.0, 2.0)])
    [(0.0, 2.0), (3.0, 5.0)]
    """
    found: list[Span] = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1] + CLOSE:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found


def without(spans: Iterable[Span], taken: Iterable[Span]) -> list[Span]:
    """What of the spans is left free by others.

    >>> without([(0.0, 10.0)], [(2.0, 3.0), (9.0, 12.0)])
    [(0.0, 2.0), (3.0, 9.0)]
    """
    left = list(spans)
    for low, high in taken:
        left = [
            piece
            for start, end in left
            for piece in ((start, min(end, low)), (max(start, high), end))
            if piece[1] - piece[0] > CLOSE
        ]
    return left


def told_apart(marks: Iterable[Drawn], least: float) -> tuple[Drawn, ...]:
    """The marks without hidden lines that are shorter than `least` [mm], or so near along a visible line."""
    held = tuple(marks)
    shown: dict[float, list[tuple[float, Span]]] = {}
    for mark in held:
        if isinstance(mark, Line) and mark.style == "visible":
            (angle, away), span = _track(mark)
            shown.setdefault(angle, []).append((away, span))
    return tuple(mark for mark in held if not _lost(mark, shown, least))


def _lost(mark: Drawn, shown: dict[float, list[tuple[float, Span]]], least: float) -> bool:
    """Whether a hidden line could not be told from what is round it."""
    if mark.style != "hidden" or not isinstance(mark, Line):
        return False
    (angle, away), span = _track(mark)
    near = [other for off, other in shown.get(angle, []) if abs(off - away) < least]
    return span[1] - span[0] < least or sum(high - low for low, high in without([span], near)) < least
