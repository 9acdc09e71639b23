"""The pictures: nothing overlaps, nothing leaves the page, every number is there, the bytes never change."""

import os
import subprocess
import sys
import warnings
from colorsys import rgb_to_hls
from dataclasses import replace
from functools import cache
from itertools import combinations
from pathlib import Path

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text
from matplotlib.transforms import Bbox

from boxfit.report import look
from boxfit.report.area import Area
from boxfit.report.frame import TITLE, draw_strip
from boxfit.report.look import NUMBER, NUMBER_HIDDEN, Ink, Lettering
from boxfit.report.paper import Sheet, plain_settings, signs_not_drawn
from boxfit.report.projection import PLAN, REAR, VIEWS, View
from boxfit.report.views import cells_for, drawn, write_views
from tests.report.samples import SAMPLES
from tests.report.test_numbering import spelt

EVERY = [(name, view) for name in SAMPLES for view in VIEWS]
IDS = [f"{name}-{view.name}" for name, view in EVERY]
ROOT = Path(__file__).parents[2]


@cache
def page(name: str, view: View) -> Sheet:
    """A drawn page of a sample."""
    car, _, layout = SAMPLES[name]()
    with plain_settings():
        return drawn(car, layout, view)


def texts(sheet: Sheet) -> list[Text]:
    """All words on the page."""
    return [found for found in sheet.figure.findobj(Text) if isinstance(found, Text) and found.get_text()]


@cache
def boxes(sheet: Sheet) -> list[tuple[str, Bbox]]:
    """All words with the rectangles that the renderer gives them."""
    renderer = FigureCanvasAgg(sheet.figure).get_renderer()  # type: ignore[no-untyped-call]
    return [(found.get_text(), found.get_window_extent(renderer)) for found in texts(sheet)]


@pytest.mark.parametrize(("name", "view"), EVERY, ids=IDS)
def test_no_two_words_overlap(name: str, view: View) -> None:
    placed = boxes(page(name, view))
    assert len(placed) > 15
    clashes = [
        (first, second)
        for (first, a), (second, b) in combinations(placed, 2)
        if a.x0 < b.x1 and b.x0 < a.x1 and a.y0 < b.y1 and b.y0 < a.y1
    ]
    assert clashes == []


@pytest.mark.parametrize(("name", "view"), EVERY, ids=IDS)
def test_no_word_leaves_the_page(name: str, view: View) -> None:
    sheet = page(name, view)
    whole = sheet.figure.bbox
    assert [
        words for words, box in boxes(sheet) if not (whole.containsx(box.x0) and whole.containsx(box.x1))
    ] == []
    assert [
        words for words, box in boxes(sheet) if not (whole.containsy(box.y0) and whole.containsy(box.y1))
    ] == []


def numbers(sheet: Sheet) -> list[int]:
    """The module numbers written on the page, runs spelt out."""
    found: list[int] = []
    for text in texts(sheet):
        if text.get_color() in (NUMBER.colour, NUMBER_HIDDEN.colour):
            found += spelt(text.get_text())
    return sorted(found)


@pytest.mark.parametrize(("name", "view"), EVERY, ids=IDS)
def test_every_module_is_numbered_once_in_every_view(name: str, view: View) -> None:
    assert numbers(page(name, view)) == list(range(1, SAMPLES[name]()[2].count + 1))


def words_of(name: str, view: View) -> str:
    return "\n".join(text.get_text() for text in texts(page(name, view)))


def test_plan_tells_what_a_workshop_looks_for() -> None:
    words = words_of("roadster", PLAN)
    for expected in (
        "Dunlin 850 with Heron 44",
        "9 × Heron 44: 3 in series × 3 parallel, 19.8 kWh",
        "Working aid, not an approval",
        "wheelbase 2180",
        "balance point 1072",
        "balance point, 168 mm ahead of the driver",
        "front axle",
        "A steering column;  B bonnet latch (negotiable);  opening: up, as outlined",
        "1 / 4",
        "374 × 476 × 296",
        "418 × 520",
    ):
        assert expected in words


def test_partly_hidden_numbers_stand_in_brackets() -> None:
    lines = words_of("crossed", PLAN).splitlines()
    assert {"(1)", "(2)", "(3)", "4", "5"} <= set(lines)


def test_unweighed_car_has_no_balance_point() -> None:
    words = words_of("many", PLAN)
    assert "balance point: not known, the car was not weighed" in words
    assert not any(line.startswith("balance point,") for line in words.splitlines())


def test_unknown_height_is_told_where_it_shows() -> None:
    assert "height not known" in words_of("van", REAR)


def test_empty_bay_is_told() -> None:
    assert "stays empty   1:" in words_of("van", PLAN)


def test_names_are_words_not_formulas() -> None:
    car, _, layout = SAMPLES["tiny"]()
    with plain_settings():
        sheet = drawn(car, replace(layout, car="a $x^2$ car"), PLAN)
        assert any("a $x^2$ car" in text.get_text() and not text.get_parse_math() for text in texts(sheet))


def test_notes_too_many_for_the_page_are_counted() -> None:
    car, _, layout = SAMPLES["roadster"]()
    with plain_settings():
        sheet = drawn(car, replace(layout, notes=tuple(f"note {k}" for k in range(60))), PLAN)
    assert any("lines more in the summary" in text.get_text() for text in texts(sheet))


def test_eight_files_and_nothing_else(tmp_path: Path) -> None:
    car, _, layout = SAMPLES["tiny"]()
    written = write_views(car, layout, tmp_path)
    assert [path.name for path in written] == [
        "plan.svg", "plan.png", "side.svg", "side.png", "rear.svg", "rear.png", "margins.svg", "margins.png",
    ]  # fmt: skip
    assert sorted(tmp_path.iterdir()) == sorted(written)
    assert b"date" not in (tmp_path / "plan.svg").read_bytes()
    assert b"tEXt" not in (tmp_path / "plan.png").read_bytes()


def test_missing_folder_is_an_error(tmp_path: Path) -> None:
    car, _, layout = SAMPLES["tiny"]()
    with pytest.raises(OSError, match="nowhere"):
        write_views(car, layout, tmp_path / "nowhere")


WRITE = """
import sys
from pathlib import Path
import matplotlib
matplotlib.rcParams.update({"font.size": 30, "lines.linewidth": float(sys.argv[2])})
from boxfit.report.views import write_views
from tests.report.samples import SAMPLES
car, _, layout = SAMPLES["crossed"]()
write_views(car, layout, Path(sys.argv[1]))
"""


def test_two_processes_write_the_same_bytes(tmp_path: Path) -> None:
    found = []
    for seed in ("1", "2"):
        folder = tmp_path / seed
        folder.mkdir()
        subprocess.run(
            [sys.executable, "-c", WRITE, str(folder), seed],
            check=True,
            cwd=ROOT,
            env={**os.environ, "PYTHONHASHSEED": seed},
        )
        found.append({path.name: path.read_bytes() for path in folder.iterdir()})
    assert len(found[0]) == 8
    assert found[0] == found[1]


def test_settings_of_the_drawing_library_are_left_alone(tmp_path: Path) -> None:
    import matplotlib as mpl

    before = dict(mpl.rcParams)
    car, _, layout = SAMPLES["tiny"]()
    write_views(car, layout, tmp_path)
    assert dict(mpl.rcParams) == before


def test_no_orange() -> None:
    """Orange is left to the high-voltage cable: no strong colour between red and yellow-green."""
    used = [thing for thing in vars(look).values() if isinstance(thing, Ink | Lettering)]
    colours = {c for thing in used for c in (thing.colour, getattr(thing, "fill", None)) if c}
    assert len(colours) > 8
    for colour in colours:
        red, green, blue = (int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5))
        hue, lightness, saturation = rgb_to_hls(red, green, blue)
        strong = saturation * (1 - abs(2 * lightness - 1)) > 0.15
        assert not (strong and 5 < hue * 360 < 75), colour


def test_cells_share_the_room_without_touching() -> None:
    car, _, _ = SAMPLES["van"]()
    room = Area(0.0, 0.0, 390.0, 120.0)
    five = replace(car, bays=(*car.bays, *car.bays[:2]))
    cells = cells_for(five, PLAN, room)
    assert len(cells) == 5
    assert all(room.inset(-1e-9).holds(cell) for cell in cells)
    assert not any(a.meets(b) for a, b in combinations(cells, 2))


def test_a_long_name_at_the_scale_bar_stays_in_the_frame() -> None:
    with plain_settings():
        sheet = Sheet()
        draw_strip(sheet, (("car", ""), ("view", ""), ("aid", "")), 10.0, "the long and windy bay " * 5)
        assert max(place.right for place in sheet.taken) <= TITLE.right
        assert [one.get_text() for one in texts(sheet) if one.get_text().endswith("… 1:10 on A3")]


def test_signs_the_font_has_not_are_no_matter_for_warnings(tmp_path: Path) -> None:
    with warnings.catch_warnings(), plain_settings():
        sheet = Sheet()
        sheet.write("后", (100.0, 100.0), Lettering(8.0))
        sheet.save(tmp_path / "page")
    assert signs_not_drawn("a后b后车") == "后车"


def test_words_too_long_are_cut_with_an_ellipsis() -> None:
    sheet = Sheet()
    short = sheet.fitted("a very long name of a very small bay", look.SMALL, 20.0)
    assert short.endswith("…")
    assert sheet.measure(short, look.SMALL)[0] <= 20.0
