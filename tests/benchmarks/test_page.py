"""The page of the larger demo: small enough to send, and seen soon after it is opened."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit import jobs
from boxfit.files.together import read_together
from boxfit.search.watch import Watch
from tests.benchmarks.measure import ROOT, Measured, best_of, told, told_ratio
from tests.report.page.browser import DRAWN, chromium

if TYPE_CHECKING:
    from playwright.sync_api import Browser

MEGABYTE = 1_000_000
MOST = 5.0
"""Megabytes of the page."""
SOON = 3.0
"""Seconds from asking for the page until its model is drawn, by the processor alone."""
EMPTY = """<!DOCTYPE html><title>empty</title><div id="model"><canvas id="c"></canvas></div><script>
const gl = document.getElementById("c").getContext("webgl2");
requestAnimationFrame(() => {
  gl.clear(gl.COLOR_BUFFER_BIT);
  document.getElementById("model").dataset.drawn = "1";
});
</script>"""
"""A page that shows an empty frame in three dimensions and no more."""


def built_page(folder: Path) -> Path:
    """The van's page, with all that a build puts into it."""
    car, (module,) = read_together(ROOT / "bays" / "petrel-van", [str(ROOT / "modules" / "heron-44.toml")])
    search = jobs.Search(Watch(60.0, lambda _found, _bound: None), 2, lambda _: None)
    jobs.build(car, module, folder / "van", search)
    return folder / "van" / "page.html"


def opening(browser: "Browser", file: Path) -> Callable[[], None]:
    """Opens the file in a window of its own and waits until something is drawn."""

    def run() -> None:
        page = browser.new_page(viewport={"width": 1280, "height": 900})
        page.goto(file.as_uri(), wait_until="commit")
        page.wait_for_function(DRAWN)
        page.close()

    return run


def test_the_larger_page(tmp_path: Path) -> None:
    """Under 5 MB; drawn within 3 s, told beside what an empty frame takes in the same browser."""
    with chromium() as browser:
        page = built_page(tmp_path)
        empty = tmp_path / "empty.html"
        empty.write_text(EMPTY)
        size = page.stat().st_size / MEGABYTE
        assert told_ratio(f"page of the van: {size:.2f} of {MOST:g} MB", size / MOST, 1.0) <= 1.0
        reference = best_of(3, opening(browser, empty))
        ours = best_of(3, opening(browser, page))
        told(Measured("the van's page drawn", "an empty frame", reference, ours, SOON / reference))
        assert told_ratio(f"drawn: {ours:.2f} of {SOON:g} s", ours / SOON, 1.0) <= 1.0
