"""SVG of a sheet: well formed, at its true size, every word and every line in its place."""

from xml.etree import ElementTree

import pytest

from boxfit.sheet.drawing.letters import width_of
from boxfit.sheet.drawing.marks import Arc, Arrow, Circle, Line, Page, Text
from boxfit.sheet.drawing.svg import svg_of

SVG = "{http://www.w3.org/2000/svg}"
PAGE = Page(
    (420.0, 297.0),
    (
        Line((10.0, 20.0), (30.0, 20.0), "visible"),
        Line((10.0, 20.0), (10.0, 40.0), "centre"),
        Circle((50.0, 97.0), 5.0, "visible"),
        Circle((60.0, 97.0), 1.0, "visible", True),
        Arc((70.0, 97.0), 2.0, 0.0, 180.0, "visible"),
        Arrow((5.0, 5.0), 90.0),
        Text("R < 5 & more", (100.0, 197.0), 2.5, "middle", 90.0),
    ),
)


def test_all_marks_are_there_upside_up() -> None:
    root = ElementTree.fromstring(svg_of(PAGE, "sheet & more").encode())
    assert (root.get("width"), root.get("viewBox")) == ("420mm", "0 0 420 297")
    paths = {path.get("stroke-dasharray"): path.get("d") or "" for path in root.iter(f"{SVG}path")}
    assert paths["6 1 0.6 1"] == "M10 277 L10 257"
    solid = paths[None]
    assert solid.startswith("M10 277 L30 277 ")
    assert "M45 200 A5 5 0 1 0 55 200" in solid
    assert "M72 200 A2 2 0 0 0 68 200" in solid
    (dot,) = root.iter(f"{SVG}circle")
    assert (dot.get("cx"), dot.get("cy"), dot.get("r")) == ("60", "200", "1")
    assert len(list(root.iter(f"{SVG}polygon"))) == 1


def test_words_are_as_wide_as_they_were_measured() -> None:
    root = ElementTree.fromstring(svg_of(PAGE, "sheet").encode())
    (text,) = root.iter(f"{SVG}text")
    assert text.text == "R < 5 & more"
    assert float(text.get("textLength") or 0.0) == pytest.approx(width_of("R < 5 & more", 2.5), abs=0.001)
    assert (text.get("text-anchor"), text.get("transform")) == ("middle", "rotate(-90 100 100)")
    assert svg_of(PAGE, "sheet") == svg_of(PAGE, "sheet")
