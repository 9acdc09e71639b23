"""The page of a layout as text: whole in itself, the same every time, nothing of a file taken for markup."""

import json
import re
from base64 import b64decode
from dataclasses import replace
from html.parser import HTMLParser
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from boxfit.bay import Block, Cylinder, Keepout
from boxfit.report.page.bays import bay_parts, block_facets, car_lines, room_facets, solid_facets
from boxfit.report.page.html import asset, table
from boxfit.report.page.packed import packed, sharp_edges
from boxfit.report.page.pictures import inlined
from boxfit.report.page.shown import Facets, Model, Shown
from boxfit.report.page.thin import thinned
from boxfit.report.page.whole import layout_page
from tests.report.page.samples import MainPage
from tests.test_demos import demo

GREY = (0.5, 0.5, 0.5, 1.0)


@pytest.fixture(scope="module")
def page(main: MainPage) -> str:
    return (main[0].folder / "page.html").read_text()


def test_the_same_layout_gives_the_same_bytes(main: MainPage, page: str) -> None:
    assert layout_page(*main) == page


class Links(HTMLParser):
    """Everything that a browser would fetch, and every name and what points to one."""

    def __init__(self) -> None:
        super().__init__()
        self.fetched: list[str] = []
        self.names: list[str] = []
        self.wanted: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:  # noqa: ARG002
        for key, value in attrs:
            if key in ("src", "href", "xlink:href", "data", "srcset") and value is not None:
                (self.wanted if value.startswith("#") else self.fetched).append(value)
            if key == "id" and value is not None:
                self.names.append(value)
            if key in ("aria-describedby", "aria-labelledby") and value is not None:
                self.wanted += [f"#{name}" for name in value.split()]


def test_nothing_is_fetched_and_every_name_stands_once(page: str) -> None:
    links = Links()
    links.feed(page)
    assert links.fetched == ["data:,"]
    assert len(links.names) == len(set(links.names))
    assert {name.removeprefix("#") for name in links.wanted} <= set(links.names)
    assert "default-src 'none'" in page
    assert re.search(r"url\(\s*['\"]?(?!#)", page) is None


def test_figures_of_the_layout_are_told(page: str) -> None:
    for words in ("19.8 kWh, 150 Ah", "9: 3 in series × 3 parallel", "proven: no layout", '<html lang="en">'):
        assert words in page
    assert "High voltage: 151.2 V full is class B" in page
    assert "front bay box 1: a note for the maker" in page


def test_words_of_files_are_never_markup(page: str) -> None:
    assert "&lt;front&gt; wall" in page
    assert "<front>" not in page
    assert "Not shown to hold: 1 of 2 checks" in page


def test_what_a_build_did_not_write_is_left_out(main: MainPage) -> None:
    told, parts = main
    bare = layout_page(replace(told, folder=told.folder / "not there", notes=()), parts)
    for name in ("drawings", "weights", "fit", "retention", "electrics"):
        assert f'<section id="{name}">' not in bare
        assert f'href="#{name}"' not in bare
    assert '<section id="boxes">' in bare


def test_the_licence_of_the_library_is_in_the_page_and_no_address_of_a_registry(page: str) -> None:
    assert "Permission is hereby granted, free of charge" in page
    assert "three.js authors" in page
    assert "sourceMappingURL" not in page
    assert re.findall(r"https?://(?!www\.w3\.org/)[^\s\"'<>)]+", page) == []
    assert len(asset("three.min.js")) < 1_000_000


def test_the_model_unpacks_to_the_parts_it_was_made_of(main: MainPage) -> None:
    """Within a step of 16 bits, by the numbers alone."""
    told, parts = main
    data = json.loads(packed(Model(parts, tuple(car_lines(told.car)), ())))
    for part, row in zip(parts, data["parts"], strict=True):
        form = data["forms"][row["form"]]
        corners = np.frombuffer(b64decode(form["corners"]), "<u2").reshape(-1, 3) * form["step"] + form["low"]
        low, high = part.facets.corners.min(axis=0), part.facets.corners.max(axis=0)
        np.testing.assert_allclose(corners.min(axis=0), low, atol=0.02)
        np.testing.assert_allclose(corners.max(axis=0), high, atol=0.02)
        assert volume(corners, numbers(form)) == pytest.approx(
            volume(part.facets.corners, part.facets.triangles), rel=0.003
        )


def numbers(form: dict[str, Any]) -> NDArray[np.int64]:
    kind = "<u4" if form["wide"] else "<u2"
    return np.frombuffer(b64decode(form["triangles"]), kind).reshape(-1, 3).astype(np.int64)


def volume(corners: NDArray[np.float64], triangles: NDArray[np.int64]) -> float:
    one, two, three = (corners[triangles[:, k]] for k in range(3))
    return float(np.einsum("ij,ij->", one, np.cross(two, three)) / 6.0)


def test_a_block_has_its_volume_and_twelve_edges() -> None:
    facets = block_facets(Block((10.0, 20.0, 30.0), (40.0, 25.0, 37.0)))
    assert volume(facets.corners, facets.triangles) == pytest.approx(30 * 5 * 7)
    assert len(sharp_edges(facets.corners, facets.triangles)) == 12


@pytest.mark.parametrize("name", ["dunlin-850", "dunlin-850-scan", "dunlin-850-sections", "petrel-van"])
def test_rooms_and_keepouts_of_every_demo_are_closed_the_right_way_round(name: str) -> None:
    car, _ = demo(name, "heron-44")
    for bay in car.bays:
        facets = room_facets(bay)
        assert len(facets.triangles) <= 16_000
        if all(part.look == "room" for part in bay_parts(car) if part.kind == "bay"):
            assert volume(facets.corners, facets.triangles) > 1e6
        for keepout in bay.keepouts:
            solid = solid_facets(keepout)
            assert volume(solid.corners, solid.triangles) > 0.0, keepout.name


def test_a_round_bar_is_nearly_its_volume() -> None:
    bar = solid_facets(Keepout("bar", Cylinder((0.0, 0.0, 5.0), (0.0, 30.0, 45.0), 20.0), 0.0))
    assert volume(bar.corners, bar.triangles) == pytest.approx(np.pi * 100.0 * 50.0, rel=0.01)


def test_a_fine_surface_is_thinned_and_keeps_its_shape() -> None:
    """A dome of 80 000 triangles, to no more than asked, nowhere off by more than a cell."""
    grid = np.linspace(-1.0, 1.0, 201)
    x, y = (one.ravel() for one in np.meshgrid(grid, grid))
    corners = np.stack([x, y, 0.3 * (2.0 - x * x - y * y)], axis=1) * 500.0
    at = np.arange(200 * 201).reshape(200, 201)[:, :200].ravel()
    faces = np.concatenate(
        [np.stack(three, axis=1) for three in ((at, at + 1, at + 201), (at + 1, at + 202, at + 201))]
    )
    thin = thinned(Facets(corners, faces), 5_000)
    assert 1_500 < len(thin.triangles) <= 5_000
    shape = 0.3 * (2.0 - (thin.corners[:, 0] / 500) ** 2 - (thin.corners[:, 1] / 500) ** 2) * 500
    assert np.abs(shape - thin.corners[:, 2]).max() < 2.0
    assert np.abs(thin.corners[:, :2]).max() > 480.0


def test_a_name_cannot_end_the_script_that_holds_it() -> None:
    block = block_facets(Block((0.0, 0.0, 0.0), (1.0, 1.0, 1.0)))
    data = packed(Model((Shown("</script><b>", "tray", "", block, GREY),), (), ()))
    assert "<" not in data
    assert json.loads(data)["parts"][0]["name"] == "</script><b>"


def test_names_within_drawings_are_kept_apart() -> None:
    svg = (
        '<?xml version="1.0"?>\n<svg viewBox="0 0 9 9"><style>*{}</style><g id="a"/><use xlink:href="#a"/>'
        + ('<path d="M 1.23456 2" style="fill: url(#h)"/></svg>')
    )
    found = inlined(svg, "plan", "Plan & more")
    for words in (
        'id="plan-a"',
        'href="#plan-a"',
        "url(#plan-h)",
        "M 1.23 2",
        "Plan &amp; more",
        'role="img"',
    ):
        assert words in found
    assert "<style" not in found


def test_columns_of_figures_stand_right_and_the_rest_left() -> None:
    found = table("t", ("name", "kg", "what"), (("a", "-1.5", "6 mm thick"), ("b", ("2.0", "short"), "")))
    assert found.count('class="number"') == 2  # the head and the cell that is not marked
    assert 'class="short number"' in found


def test_noise_of_a_scan_draws_no_edges() -> None:
    """A rough plate with a hole's worth of rim: no line; the same taken as made: its rim and its bumps."""
    grid = np.arange(30.0)
    x, y = (one.ravel() for one in np.meshgrid(grid, grid))
    corners = np.stack([x * 10.0, y * 10.0, 1.5 * ((x + y) % 2)], axis=1)
    at = np.arange(29 * 30).reshape(29, 30)[:, :29].ravel()
    faces = np.concatenate(
        [np.stack(three, axis=1) for three in ((at, at + 1, at + 30), (at + 1, at + 31, at + 30))]
    )
    assert len(sharp_edges(corners, faces, rough=True)) == 0
    assert len(sharp_edges(corners, faces)) >= 4 * 29
    block = block_facets(Block((0.0, 0.0, 0.0), (9.0, 9.0, 9.0)))
    assert len(sharp_edges(block.corners, block.triangles, rough=True)) == 12


def test_a_scanned_body_is_a_skin_and_a_taped_bay_a_room() -> None:
    looks = {
        name: {part.look for part in bay_parts(demo(name, "heron-44")[0]) if part.kind == "bay"}
        for name in ("dunlin-850", "dunlin-850-scan")
    }
    assert looks == {"dunlin-850": {"room"}, "dunlin-850-scan": {"room", "skin"}}
