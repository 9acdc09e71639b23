"""The margins as a table, as comma-separated text, and what the survey's error does to them in words."""

import csv
import io
from collections.abc import Iterator
from math import floor

from boxfit.bay import Bay
from boxfit.car import Car
from boxfit.report.columns import table
from boxfit.report.margins import SLACK, WHAT_IF, Margin, fails_if_out, survives

HEADS = ("bay", "box", "part", "face", "nearest", "mm away", "mm asked", "mm left")
CSV_HEADS = ("bay", "box", "part", "face", "obstacle", "distance", "asked", "left")
BAY_LETTERS = 18
NEAREST_LETTERS = 26
"""Letters kept of a name, so that a row stays within the usual width."""


def margin_table(found: tuple[Margin, ...]) -> str:
    """The margins [mm] as plain text in columns, in the order given; long names are cut short.

    Figures are to a tenth, rounded down, so that no room is told that is not there.
    """
    rows = [
        (
            _short(margin.bay, BAY_LETTERS),
            str(margin.box),
            margin.part,
            margin.called,
            _short(margin.obstacle, NEAREST_LETTERS),
            *_figures(margin),
        )
        for margin in found
    ]
    return "\n".join(table([HEADS, *rows], numbers_from=5)) + "\n"


def margin_csv(found: tuple[Margin, ...]) -> str:
    """The margins [mm] as comma-separated text, in the order given, figures to a tenth as in the table."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(CSV_HEADS)
    for one in found:
        writer.writerow((one.bay, one.box, one.part, one.called, one.obstacle, *_figures(one)))
    return text.getvalue()


def survey_words(found: tuple[Margin, ...], car: Car) -> tuple[str, ...]:
    """What an error of the survey does to each bay with boxes, an entry each, and what that leaves out."""
    most = survives(found, car)
    told = [_bay_words(bay, most[bay.name], found, car) for bay in car.bays if bay.name in most]
    limits = "Boxes in their place only: the way in keeps the survey's tolerance and no more. A working aid."
    return (*told, limits) if told else ()


def survey_short(found: tuple[Margin, ...], car: Car, bay: Bay) -> str:
    """The same for one bay with boxes, in a few words."""
    tightest = _tightest(_own(found, bay))
    return (
        f"survives a survey error of up to {down(survives(found, car)[bay.name])} mm "
        f"(tolerance ± {bay.tolerance:.1f}); tightest: {_place(tightest)}, "
        f"{down(tightest.left)} left to {tightest.obstacle}"
    )


def _bay_words(bay: Bay, most: float, found: tuple[Margin, ...], car: Car) -> str:
    own = _own(found, bay)
    tightest = _tightest(own)
    words = (
        f"{bay.name}: survives a survey error of up to {down(most)} mm; tightest is {_place(tightest)}, "
        f"{down(tightest.left)} mm beyond its allowance from {tightest.obstacle}."
    )
    if bay.tolerance == 0.0:
        return words
    outs = ((1.0, "the tolerance"), (WHAT_IF, "twice that"))
    return " ".join((words, *(_if_out(own, car, bay.tolerance, *out) for out in outs)))


def _if_out(own: tuple[Margin, ...], car: Car, tolerance: float, times: float, named: str) -> str:
    """Which faces lose clearance where the survey is out by so many times its tolerance."""
    short = fails_if_out(own, car, times)
    out = f"Out by ± {times * tolerance:.1f} mm, {named},"
    if not short:
        return f"{out} every face keeps its clearance."
    falls = "falls" if len(short) == 1 else "fall"
    return f"{out} {len(short)} of {len(own)} faces {falls} short: {'; '.join(_places(short))}."


def _own(found: tuple[Margin, ...], bay: Bay) -> tuple[Margin, ...]:
    """A bay's margins to what was surveyed."""
    return tuple(margin for margin in found if margin.bay == bay.name and margin.surveyed)


def _tightest(own: tuple[Margin, ...]) -> Margin:
    return min(own, key=lambda margin: round(margin.left, 6))


def _place(margin: Margin) -> str:
    return f"box {margin.box} {_face(margin)}"


def _face(margin: Margin) -> str:
    """A face by part and name; a name that has the part's word in it stands alone.

    >>> at = (0.0, 0.0, 0.0)
    >>> _face(Margin("b", 1, "walls", "left", "wall", 9.0, 9.0, at, at, name="left wall, front part"))
    'left wall, front part'
    """
    if not margin.name:
        return f"{margin.part} {margin.face}"
    return margin.name if margin.part == "walls" else f"flange at {margin.name}"


def _places(short: tuple[Margin, ...]) -> Iterator[str]:
    """The faces by box and part."""
    groups: dict[tuple[int, str], list[str]] = {}
    for margin in short:
        first = _face(margin) if margin.name else margin.part
        groups.setdefault((margin.box, first), []).extend([] if margin.name else [margin.face])
    for (box, first), faces in groups.items():
        yield f"box {box} {' '.join(filter(None, (first, ', '.join(faces))))}"


def _figures(margin: Margin) -> tuple[str, str, str]:
    return (down(margin.distance), f"{margin.asked:.1f}", down(margin.left))


def down(figure: float) -> str:
    """A figure [mm] to a tenth, never told greater than it is but for rounding noise.

    >>> down(12.28), down(2.9999), down(-0.04)
    ('12.2', '3.0', '-0.1')
    """
    return f"{floor((figure + SLACK) * 10.0) / 10.0:.1f}"


def _short(name: str, most: int) -> str:
    """A name of at most so many letters.

    >>> _short("steering column", 9)
    'steering…'
    """
    return name if len(name) <= most else name[: most - 1] + "…"
