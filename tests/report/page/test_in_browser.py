"""The pages as somebody uses them: in a browser without a network, by mouse, by keys, on paper."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest

from boxfit.report.page.compare import compare_page
from tests.report.page.browser import Opened, changed, chromium, opened
from tests.report.page.rows import ROWS
from tests.report.page.samples import MainPage

if TYPE_CHECKING:
    from playwright.sync_api import Browser

A4 = (595.0, 842.0)
"""Points of a sheet, upright."""


@pytest.fixture(scope="module")
def browser() -> "Iterator[Browser]":
    with chromium() as found:
        yield found


@pytest.fixture(scope="module")
def shown(browser: "Browser", main: MainPage) -> Opened:
    """The page of a layout, left by every test as it was found."""
    return opened(browser, main[0].folder / "page.html")


def set_to(shown: Opened, name: str, value: str) -> None:
    """A slider at a value, as if it were dragged there and let go."""
    shown.page.locator(name).evaluate(
        "(slider, value) => { slider.value = value; for (const what of ['input', 'change'])"
        " slider.dispatchEvent(new Event(what, { bubbles: true })); }",
        value,
    )


def test_the_page_opens_without_an_error_and_asks_for_nothing(shown: Opened) -> None:
    assert shown.said == []
    assert shown.asked == []
    assert shown.page.title() == "Dunlin 850 with Heron 44: layout"


def test_the_model_is_there(shown: Opened) -> None:
    """Many colours over a good part of the frame, not one plain ground."""
    seen = shown.screen()
    ground = seen[20, 20]
    assert (np.abs(seen - ground).max(axis=2) > 12).mean() > 0.08
    assert len(np.unique(seen.reshape(-1, 3) // 16, axis=0)) > 25


@pytest.mark.parametrize("name", ['input[data-kind="module"]', 'input[data-group="rear bay box 1"]'])
def test_what_is_hidden_is_gone_and_comes_back(shown: Opened, name: str) -> None:
    before = shown.picture()
    shown.page.locator(name).uncheck()
    assert changed(before, shown.picture()) > 0.002
    shown.page.locator(name).check()
    assert changed(before, shown.picture()) == 0.0


def test_every_kind_has_a_part_in_the_picture(shown: Opened) -> None:
    names = shown.page.eval_on_selector_all("input[data-kind]", "all => all.map((one) => one.dataset.kind)")
    assert {"bay", "keep-out", "tray", "lid", "module", "hold-down", "foot", "module room"} <= set(names)
    assert not shown.page.locator('input[data-kind="module room"]').is_checked()


def test_exploded_and_back(shown: Opened) -> None:
    shown.page.get_by_role("button", name="From the corner").click()
    before = shown.picture()
    set_to(shown, "#exploded", "100")
    assert changed(before, shown.picture()) > 0.05
    set_to(shown, "#exploded", "0")
    assert changed(before, shown.picture()) < 0.002


@pytest.mark.parametrize("axis", ["x", "y", "z"])
def test_a_section_cuts_away_one_half_or_the_other(shown: Opened, axis: str) -> None:
    before = shown.picture()
    shown.page.select_option("#section-axis", axis)
    one = shown.picture()
    assert changed(before, one) > 0.01
    assert re.fullmatch(rf"cut at {axis} = -?\d+ mm", shown.page.locator("#section-said").inner_text())
    shown.page.locator("#section-other").check()
    assert changed(one, shown.picture()) > 0.01
    shown.page.locator("#section-other").uncheck()
    set_to(shown, "#section-at", "150")
    assert changed(one, shown.picture()) > 0.001
    set_to(shown, "#section-at", "500")
    shown.page.select_option("#section-axis", "none")
    assert changed(before, shown.picture()) == 0.0


def test_keys_turn_shift_and_zoom_the_model(shown: Opened) -> None:
    canvas = shown.page.locator("#model-canvas")
    canvas.focus()
    shown.page.keyboard.press("Home")
    home = shown.picture()
    for key in ("ArrowLeft", "ArrowUp", "Shift+ArrowRight", "+"):
        before = shown.picture()
        shown.page.keyboard.press(key)
        assert changed(before, shown.picture()) > 0.01, key
    shown.page.keyboard.press("Home")
    assert changed(home, shown.picture()) < 0.002


def test_the_tab_key_reaches_everything_and_shows_where_it_is(shown: Opened) -> None:
    shown.page.locator("#model-canvas").focus()
    reached: list[str] = []
    for _ in range(40):
        shown.page.keyboard.press("Tab")
        now = shown.page.evaluate(
            "() => { const at = document.activeElement; if (at === document.body) return ['', ''];"
            " return [at.id || at.textContent || at.dataset.kind || at.dataset.group,"
            " getComputedStyle(at).outlineStyle]; }"
        )
        if now[0] == "":
            break  # past the last of the page
        assert now[1] != "none", now
        reached.append(now[0])
    assert {"From the corner", "tray", "front bay box 1", "exploded", "section-axis"} <= set(reached)


def test_clicking_a_part_tells_its_name(shown: Opened) -> None:
    shown.page.get_by_role("button", name="Plan").click()
    shown.picture()
    canvas = shown.page.locator("#model-canvas")
    size = canvas.bounding_box()
    assert size is not None
    names: set[str] = set()
    for across in range(1, 12):
        at = {"x": size["width"] * across / 12, "y": size["height"] / 2}
        canvas.click(position={"x": at["x"], "y": at["y"]})
        names.add(shown.page.locator("#model-said").inner_text())
    shown.page.get_by_role("button", name="From the corner").click()
    assert any("rear bay box 1" in name for name in names), names


def test_words_stand_out_from_their_ground(shown: Opened) -> None:
    """WCAG 2 level AA: a contrast of at least 4.5 for text, by its own formula of relative luminance."""
    pairs = shown.page.evaluate(
        """() => [...document.querySelectorAll("body *")].filter((one) =>
             [...one.childNodes].some((child) => child.nodeType === 3 && child.textContent.trim()) &&
             one.getClientRects().length && !one.closest("svg, script, style"))
           .map((one) => { let at = one; let ground = "rgba(0, 0, 0, 0)";
             while (at && ground === "rgba(0, 0, 0, 0)") { ground = getComputedStyle(at).backgroundColor;
               at = at.parentElement; }
             return [getComputedStyle(one).color, ground]; })"""
    )
    found = {(ink, ground) for ink, ground in pairs}
    assert len(found) > 3
    assert [pair for pair in found if contrast(*pair) < 4.5] == []


def contrast(ink: str, ground: str) -> float:
    """The ratio of the lighter to the darker, 1 to 21 (WCAG 2, relative luminance)."""
    bright = sorted(map(luminance, (ink, ground)))
    return (bright[1] + 0.05) / (bright[0] + 0.05)


def luminance(colour: str) -> float:
    parts = [float(one) / 255.0 for one in re.findall(r"[\d.]+", colour)[:3]]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_without_javascript_drawings_and_tables_are_there(browser: "Browser", main: MainPage) -> None:
    plain = opened(browser, main[0].folder / "page.html", javascript=False).page
    assert plain.locator("#drawings svg").count() >= 4
    assert plain.locator("#boxes table").count() == 2
    assert plain.locator("#model-controls").is_hidden()
    assert plain.get_by_text("model needs JavaScript").is_visible()
    plain.context.close()


def test_on_paper_every_drawing_has_a_page_of_its_own(shown: Opened) -> None:
    """A4 upright, drawings lying; nothing runs off to the side."""
    paper = shown.page.pdf(prefer_css_page_size=True, print_background=True)
    sizes = [
        (float(wide), float(high))
        for wide, high in re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", paper)
    ]
    lying = [size for size in sizes if size[0] > size[1]]
    assert len(lying) == shown.page.locator("#drawings figure").count() >= 4
    assert 2 <= len(sizes) - len(lying) <= 10
    for size in sizes:
        assert sorted(size) == pytest.approx(A4, abs=1.0)
    shown.page.emulate_media(media="print")
    shown.page.set_viewport_size({"width": 703, "height": 1000})  # 186 mm between the margins
    wide = shown.page.evaluate("() => document.documentElement.scrollWidth")
    shown.page.emulate_media(media="screen")
    shown.page.set_viewport_size({"width": 900, "height": 700})
    assert wide <= 703


def test_the_comparison_sorts_by_any_head(browser: "Browser", tmp_path: Path) -> None:
    file = tmp_path / "compare.html"
    file.write_text(compare_page(ROWS, "Dunlin 850"))
    shown = opened(browser, file)
    head = shown.page.locator("#rows th", has_text=re.compile("^kWh$"))
    for way, wanted in (("ascending", ["9.0", "19.8", "-"]), ("descending", ["19.8", "9.0", "-"])):
        head.locator("button").click()
        assert head.get_attribute("aria-sort") == way
        place = head.evaluate("(head) => head.cellIndex")
        assert shown.page.locator(f"#rows tbody tr > :nth-child({place + 1})").all_inner_texts() == wanted
    assert (shown.said, shown.asked) == ([], [])
    shown.page.context.close()
