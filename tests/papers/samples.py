"""Papers to look at: both demo cars, and a car whose files tell next to nothing."""

from dataclasses import replace
from functools import cache

from boxfit.car import Car, Limits
from boxfit.jobs.papers import case_of
from boxfit.layout import Layout
from boxfit.module import Module
from boxfit.papers.case import Case
from boxfit.papers.whole import papers
from boxfit.sheet.drawing.marks import Drawing, Page
from tests.box.samples import HERON, car_and_layout
from tests.test_demos import demo, laid_out

DEMOS = ("dunlin-850", "petrel-van")


@cache
def demo_case(car: str) -> Case:
    """A demo car with the module of the README."""
    read, module = demo(car, "heron-44")
    return made(read, module, laid_out(read, module))


@cache
def silent_case() -> Case:
    """A car not weighed, without limits, windows, mounts or people; a module without amperes."""
    car, layout = car_and_layout()
    bays = tuple(replace(bay, mounts=()) for bay in car.bays)
    bare = replace(
        car, bays=bays, weighed=None, limits=Limits(), windows=(), fitted=(), carried=(), target=None
    )
    return made(bare, replace(HERON, current=None), layout)


def made(car: Car, module: Module, layout: Layout) -> Case:
    """Everything that papers are made from."""
    return case_of(car, module, layout, lambda _: None)


@cache
def demo_papers(car: str) -> Drawing:
    """The pages of a demo car."""
    return papers(demo_case(car))


@cache
def silent_papers() -> Drawing:
    """The pages of the car whose files tell next to nothing."""
    return papers(silent_case())


def words_of(pages: tuple[Page, ...]) -> str:
    """Every word of some pages, text after text as they were set."""
    return " ".join(" ".join(text.words for text in page.texts) for page in pages)
