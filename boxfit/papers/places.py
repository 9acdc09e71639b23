"""Arrangement in words: where each box stands, and how near it comes to what was surveyed. [mm]"""

from collections.abc import Iterator

from boxfit.papers.case import Case
from boxfit.papers.flow import Block, Points, Section
from boxfit.papers.grid import Grid
from boxfit.report.margin_text import survey_words
from boxfit.report.margins import margins
from boxfit.report.summary import how_good


def places(case: Case) -> Section:
    """The section before the drawing of the arrangement."""
    return Section("Arrangement", tuple(_blocks(case)))


def _blocks(case: Case) -> Iterator[Block]:
    rows = []
    for one in case.built:
        spans = [f"{low:.0f} to {high:.0f}" for low, high in zip(one.box.low, one.box.high, strict=True)]
        rows.append(
            (one.parts.name, one.bay.name, *spans, str(len(one.box.modules)), str(len(one.box.tiers)))
        )
    columns = ("box", "bay", "x", "y", "z", "modules", "tiers")
    yield Grid(
        "Where the boxes stand, outside of walls, floor and lid", columns, tuple(rows), frozenset((5, 6))
    )
    notes = (
        "x forwards from the front axle, y to the left of the middle, z up from the ground; the drawing "
        "follows",
        f"how many modules: {how_good(case.layout)}",
        *case.layout.notes,
    )
    yield Points(notes)
    found = margins(case.car, case.layout)
    faces = [
        (
            f"{one.bay} box {one.box}",
            f"{one.part}, {one.called}",
            one.obstacle,
            f"{one.distance:.1f}",
            f"{one.asked:.1f}",
            f"{one.left:+.1f}",
        )
        for one in found
    ]
    heads = ("box", "face", "looks at", "distance", "asked", "left")
    heading = "How near each face comes to the body as surveyed; what is asked holds the survey's tolerance"
    yield Grid(heading, heads, tuple(faces), frozenset((3, 4, 5)))
    yield Points(tuple(survey_words(found, case.car)))
