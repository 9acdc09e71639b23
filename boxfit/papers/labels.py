"""Labels to fix and where, and the record of bolts tightened."""

from collections.abc import Iterator
from itertools import pairwise
from math import cos, radians, sin

from boxfit.bay import Point
from boxfit.papers.case import Case
from boxfit.papers.columns import LETTERS
from boxfit.papers.flow import Block, Drawn, Points, Section
from boxfit.papers.grid import ROW, Grid
from boxfit.sheet.drawing.marks import Line, Mark, Text
from boxfit.sheet.fastener_list import merged
from boxfit.sheet.write_lists import fasteners_of
from boxfit.standards.insulation import is_class_b

SIGN = 24.0
"""Side [mm] of the warning sign on the page."""
NOT_TIGHTENED = ("washer", "rivet-nut")
TO_WRITE = 7.5
"""Height of a row that somebody writes in [mm]."""


def labels(case: Case) -> Section:
    """The section of labels."""
    return Section("Labels to fix", tuple(_labels(case)))


def torque(case: Case) -> Section:
    """The section of bolts tightened."""
    return Section("Torque record", tuple(_torque(case)))


def _labels(case: Case) -> Iterator[Block]:
    if is_class_b(case.highest_volts):
        yield sign(f"{case.highest_volts:.0f} V direct current, live at all times")
    yield Grid(
        "What goes where",
        ("label", "where", "fixed, by"),
        tuple(_rows(case)),
        least=TO_WRITE,
        blank={2: 28.0},
    )
    yield Points(
        (
            "labels bear oil, water and light and can be read with the cover off; in the language of the "
            "country",
            "the sign's shape, colours and least size are those of ISO 3864 and ISO 7010, from memory: buy "
            "it, do not print this page",
            "a card for the fire service in the car: where the pack, the disconnect and the orange cables "
            "are, its chemistry as the module's maker tells, never to be cut open",
        )
    )


def _rows(case: Case) -> Iterator[tuple[str, ...]]:
    """Label by label."""
    high = is_class_b(case.highest_volts)
    volts = f"{case.highest_volts:.0f} V d.c."
    for one in case.built:
        name = one.parts.name
        if high:
            cover = " and on the cover plate" if one.parts.cover_plate else ""
            yield (
                f"warning sign W012 and {volts}",
                f"{name}: on the lid{cover}, seen before it is opened",
                "",
            )
            yield ("disconnect before opening; live when disconnected", f"{name}: beside the lid screws", "")
        energy = len(one.box.modules) * case.module.energy
        yield (
            f"{len(one.box.modules)} modules, {energy:.1f} kWh, mass filled, pack's name and year",
            f"{name}: on a wall that shows",
            "",
        )
    places = [
        f"{one.parts.name}, {each.looks} wall"
        for one in case.built
        for each in one.parts.fittings.bought
        if each.kind == "service disconnect"
    ]
    where = "; ".join(places) or "where the disconnect is put: no box takes one"
    yield ("service disconnect, how to open and lock it", where, "")
    if high:
        yield ("orange covering", "every cable of the pack outside of the boxes, over its whole length", "")
    yield ("emergency cut", "the switch of the contactors, within the driver's reach and from outside", "")
    yield ("electric drive", "at the charging socket, under the bonnet and in the boot", "")


def sign(words: str) -> Drawn:
    """The warning of electricity, ISO 7010 W012 from memory: a triangle with a bolt, words beside it."""
    marks: list[Mark] = [*_triangle(SIGN, 0.9), *_triangle(SIGN - 5.0, 0.35), *_bolt()]
    left = SIGN + 6.0
    for place, line in enumerate(
        (
            "Warning: electricity (ISO 7010 W012, from memory)",
            words,
            "black on yellow, the triangle's edge black; drawn here in outline only",
        )
    ):
        marks.append(Text(line, (left, SIGN * 0.62 - ROW * place), LETTERS))
    return Drawn(SIGN, tuple(marks))


def _triangle(side: float, width: float) -> Iterator[Line]:
    """An upright triangle about the middle of the sign."""
    middle = (SIGN / 2.0, SIGN * 0.36)
    reach = side / 3.0**0.5
    corners = [
        (middle[0] + reach * cos(radians(angle)), middle[1] + reach * sin(radians(angle)))
        for angle in (90.0, 210.0, 330.0)
    ]
    for one, other in zip(corners, (*corners[1:], corners[0]), strict=True):
        yield Line(one, other, "visible", width)


def _bolt() -> Iterator[Line]:
    """A flash that runs down to an arrow."""
    path: tuple[Point, ...] = ((0.8, 5.2), (-1.9, 0.6), (0.9, 1.1), (-0.3, -3.4))
    at = (SIGN / 2.0, SIGN * 0.36)
    points = [(at[0] + x, at[1] + y) for x, y in path]
    for one, other in pairwise(points):
        yield Line(one, other, "visible", 0.8)
    tip = points[-1]
    for end in ((tip[0] - 1.3, tip[1] + 1.5), (tip[0] + 1.5, tip[1] + 1.2)):
        yield Line(tip, end, "visible", 0.8)


def _torque(case: Case) -> Iterator[Block]:
    yield Points(
        (
            "no torque is printed here: none of the sources held has a figure for these joints. It hangs "
            "on class, friction, washer and the softest part (a rivet-nut, thin body sheet, a gasket): "
            "take it from the maker of the bolt and of the rivet-nut, or from an engineer by VDI 2230, and "
            "write it in before tightening",
            "tighten with a wrench that is calibrated, crosswise, mark each head with paint, and look "
            "again after 500 km (common practice, no source)",
            "terminals of the modules: only by the module maker's figure, with an insulated wrench, by "
            "people trained for it",
        )
    )
    rows = []
    for one in merged(fasteners_of(case.built)):
        if one.thread.startswith("M") and not one.what.startswith(NOT_TIGHTENED):
            rows.append((one.thread, str(one.count), one.what, one.where, "", "", ""))
    rows.sort(key=lambda row: (-float(row[0].split(" ")[0].removeprefix("M")), row))
    columns = ("size", "qty", "what", "where", "torque, N m", "tightened by", "when")
    if rows:
        yield Grid(
            "Bolts and screws",
            columns,
            tuple(map(tuple, rows)),
            frozenset((1,)),
            TO_WRITE,
            {4: 20.0, 5: 24.0, 6: 18.0},
            frozenset((0,)),
        )
    joints = tuple((joint, "", "", "", "") for joint in ("module terminals", "link cables", "body earth"))
    heads = ("electrical joint", "qty", "torque, N m", "tightened by", "when")
    blank = {1: 14.0, 2: 28.0, 3: 40.0, 4: 24.0}
    yield Grid("Electrical joints", heads, joints, least=TO_WRITE, blank=blank)
