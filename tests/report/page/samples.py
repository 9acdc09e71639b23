"""The page of the README's main job, made without the files that only other tests look at."""

from pathlib import Path

from boxfit.box.whole import built_boxes
from boxfit.jobs.page import shown_parts
from boxfit.report.fit_text import box_fits, fit_csv
from boxfit.report.margin_text import margin_csv
from boxfit.report.margins import margins
from boxfit.report.page.shown import Shown
from boxfit.report.page.whole import Told, write_page
from boxfit.report.views import write_views
from boxfit.solid.made import made_boxes
from tests.test_demos import demo, laid_out

FAILING = (
    "box,item,check,pull,load,resistance,unit,utilisation,passes,rule,what to change,where the formula ends\n"
    "box 1,<front> wall,bent,front,394,72.727,MPa,5.413,no,a rule,6 mm thick,\n"
    "box 1,foot,bolt pulled,up,10,100,N,0.1,yes,a rule,,\n"
)
"""Checks as a build lists them: one that fails, with a name that would be a tag if it were not escaped."""

MainPage = tuple[Told, tuple[Shown, ...]]


def main_page(folder: Path) -> MainPage:
    """What is told and shown; page.html and what that shows go into the folder."""
    car, module = demo("dunlin-850", "heron-44")
    layout = laid_out(car, module)
    built = built_boxes(car, module, layout)
    parts = shown_parts(made_boxes(car, module, layout, built))
    write_views(car, layout, folder)
    (folder / "margins.csv").write_text(margin_csv(margins(car, layout)))
    (folder / "fit.csv").write_text(fit_csv(box_fits(built, module), layout))
    (folder / "retention.csv").write_text(FAILING)
    told = Told(car, module, layout, folder, ("front bay box 1: a note for the maker",))
    write_page(told, parts)
    return told, parts
