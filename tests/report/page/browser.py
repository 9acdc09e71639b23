"""A page in headless Chromium that may ask no network for anything, and what is seen of it there."""

import io
import shutil
from base64 import b64decode
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest
from numpy.typing import NDArray

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page, Route

FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--enable-unsafe-swiftshader",
    "--use-gl=angle",
    "--use-angle=swiftshader",
)
"""Drawn by the processor, as a machine without a screen has nothing else."""
DRIVER_TALK = "GL Driver Message"
"""Chromium's own remarks on speed, of no page's making."""
DRAWN = "() => document.getElementById('model').dataset.drawn"

CANVAS = "() => document.getElementById('model-canvas').toDataURL()"


@contextmanager
def chromium() -> "Iterator[Browser]":
    """Debian's Chromium; the tests that ask for it are skipped where it or its driver is missing."""
    program = shutil.which("chromium")
    if program is None:
        pytest.skip("no chromium on this machine: pages are not looked at")
    playwright = pytest.importorskip("playwright.sync_api", reason="no playwright: pages are not looked at")
    with playwright.sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=program, args=list(FLAGS))
        yield browser
        browser.close()


@dataclass
class Opened:
    """An opened page with what it said and what it asked for; only its own file is ever given to it."""

    page: "Page"
    said: list[str] = field(default_factory=list)
    asked: list[str] = field(default_factory=list)

    def screen(self) -> NDArray[np.int64]:
        """The model's frame as it stands on the screen, once what was asked of it is drawn."""
        self.drawn()
        return pixels(self.page.locator("#model").screenshot())

    def picture(self) -> NDArray[np.int64]:
        """The model alone as drawn, whatever the page's scrolling does to the screen."""
        self.drawn()
        return pixels(b64decode(self.page.evaluate(CANVAS).partition(",")[2]))

    def drawn(self) -> None:
        """Waits until what was asked of the model is drawn."""
        self.page.evaluate(
            "() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))"
        )


def pixels(png: bytes) -> NDArray[np.int64]:
    """The red, green and blue of every pixel, 0 to 255."""
    from matplotlib.image import imread

    return (imread(io.BytesIO(png))[:, :, :3] * 255.0).round().astype(np.int64)


def changed(one: NDArray[np.int64], other: NDArray[np.int64]) -> float:
    """The share of pixels that differ visibly."""
    return float((np.abs(one - other).max(axis=2) > 12).mean())


def opened(browser: "Browser", file: Path, javascript: bool = True) -> Opened:
    """The file in a new window of its own; for a layout's page, once the model is drawn."""
    context = browser.new_context(
        viewport={"width": 900, "height": 700}, java_script_enabled=javascript, reduced_motion="reduce"
    )
    found = Opened(context.new_page())

    def only_itself(route: "Route") -> None:
        if route.request.url == file.as_uri():
            route.continue_()
        else:
            found.asked.append(route.request.url)
            route.abort()

    context.route("**/*", only_itself)
    found.page.on("console", lambda words: found.said.append(words.text))
    found.page.on("pageerror", lambda error: found.said.append(str(error)))
    found.page.goto(file.as_uri())
    if javascript and found.page.locator("#model").count():
        found.page.wait_for_function(DRAWN)
    found.said[:] = [words for words in found.said if DRIVER_TALK not in words]
    return found
