"""The papers as pages: sections on A4, drawings at their own size, each page with its number and caution."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from boxfit.papers.boxes import boxes
from boxfit.papers.case import WORKING_AID, Case
from boxfit.papers.cautions import cautions, sources_section
from boxfit.papers.columns import LETTERS
from boxfit.papers.cover import cover
from boxfit.papers.electrics import electrics
from boxfit.papers.fixings import fixings
from boxfit.papers.flow import LEFT, RIGHT, SIZE, Section, pages_of
from boxfit.papers.holes import holes
from boxfit.papers.labels import labels, torque
from boxfit.papers.masses import masses
from boxfit.papers.places import places
from boxfit.sheet.drawing.box import box_drawing
from boxfit.sheet.drawing.car_page import car_page
from boxfit.sheet.drawing.letters import cut_to, width_of
from boxfit.sheet.drawing.marks import Drawing, Line, Mark, Page, Text
from boxfit.sheet.drawing.title import Title
from boxfit.sheet.single_line import single_line_drawing
from boxfit.sheet.strings_plan import strings_drawing

HEAD, FOOT = 284.0, 14.0
"""Base lines of the words at the head and at the foot of an A4 page [mm]."""
MOST_TITLE = 100.0
"""A title takes no more than this of the head of a page [mm]."""
STEM = "papers"


@dataclass(frozen=True)
class Part:
    """Some pages that belong together: their title, and themselves before they have numbers."""

    title: str
    pages: tuple[Page, ...]


def papers(case: Case, tell: Callable[[str], None] = lambda _: None) -> Drawing:
    """Every page, the cover first."""
    parts = tuple(_parts(case, tell))
    return Drawing(STEM, tuple(numbered(case, (_cover(case, parts), *parts))))


def _parts(case: Case, tell: Callable[[str], None]) -> Iterator[Part]:
    """All but the cover, in the order in which an inspector looks."""
    yield section_part(masses(case))
    yield section_part(places(case))
    yield Part("Arrangement, drawing", (arrangement(case),))
    yield section_part(boxes(case))
    yield section_part(fixings(case))
    yield section_part(electrics(case))
    yield Part("Single-line diagram", single_line_drawing(case.electrics).pages)
    yield Part("Plan of strings", strings_drawing(case.electrics).pages)
    for make in (holes, labels, torque, cautions, sources_section):
        yield section_part(make(case))
    for one in case.built:
        tell(f"drawing {one.parts.name}")
        drawing = box_drawing(case.car, case.module, one, _numbers(case), case.shapes)
        yield Part(f"Appendix: drawing of {one.parts.name}", drawing.pages)


def _numbers(case: Case) -> dict[str, str]:
    from boxfit.box.numbers import part_numbers

    return dict(part_numbers(case.built))


def arrangement(case: Case) -> Page:
    """The drawing of the boxes in the car."""
    title = Title(
        title=f"arrangement in the {case.car.name}",
        number="",
        kind="arrangement drawing",
        scale="",
        car=case.car.name,
        tolerances="positions ± the survey's tolerance",
        cautions="High voltage: live work only by qualified people, to local codes.",
    )
    return car_page(case.car, case.module, case.judged, case.built, title)


def section_part(section: Section) -> Part:
    """A section as pages."""
    return Part(section.title, tuple(Page(SIZE, marks) for marks in pages_of(section)))


def _cover(case: Case, parts: tuple[Part, ...]) -> Part:
    """The cover, as many pages as it takes whatever the numbers in it."""
    count = len(pages_of(cover(case, [(part.title, "000") for part in parts])))
    contents, page = [], count + 1
    for part in parts:
        contents.append((part.title, str(page)))
        page += len(part.pages)
    return Part("Cover", section_part(cover(case, contents)).pages)


def numbered(case: Case, parts: tuple[Part, ...]) -> Iterator[Page]:
    """Every page with its number, the car, the module and the caution."""
    whole = sum(len(part.pages) for part in parts)
    page = 0
    for part in parts:
        for one in part.pages:
            page += 1
            number = f"page {page} of {whole}"
            added = _furniture(case, part.title, number) if one.size == SIZE else _beside(case, one, number)
            yield Page(one.size, (*one.marks, *added))


def _furniture(case: Case, title: str, number: str) -> Iterator[Mark]:
    """Head and foot of an A4 page."""
    title = cut_to(title, LETTERS, MOST_TITLE)
    room = RIGHT - LEFT - width_of(title, LETTERS) - 6.0
    yield Text(cut_to(case.title, LETTERS, room), (LEFT, HEAD), LETTERS)
    yield Text(title, (RIGHT, HEAD), LETTERS, "right")
    yield Line((LEFT, HEAD - 2.5), (RIGHT, HEAD - 2.5), "frame", 0.35)
    yield Line((LEFT, FOOT + 4.5), (RIGHT, FOOT + 4.5), "frame")
    yield Text(WORKING_AID, (LEFT, FOOT), LETTERS)
    yield Text(number, (RIGHT, FOOT), LETTERS, "right")


def _beside(case: Case, page: Page, number: str) -> Iterator[Mark]:
    """The same in the binding margin of a drawing, to be read from the right."""
    height = page.size[1]
    words = cut_to(f"{case.title}. {WORKING_AID}", LETTERS, height - 70.0)
    yield Text(words, (9.0, 15.0), LETTERS, "left", 90.0)
    yield Text(number, (9.0, height - 15.0), LETTERS, "right", 90.0)
