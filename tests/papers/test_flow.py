"""Tables and words on pages: nothing lost, nothing past the edge, no row parted from its heading."""

from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.papers.columns import Column, widths_within
from boxfit.papers.flow import BOTTOM, LEFT, RIGHT, TOP, Heading, Points, Section, Words, pages_of
from boxfit.papers.grid import SPACE, Grid
from boxfit.sheet.drawing.letters import corners_of
from boxfit.sheet.drawing.marks import Line, Page, Text
from boxfit.sheet.drawing.overlap import overlaps

words = st.text("abc defg", max_size=90)
grids = st.integers(1, 6).flatmap(
    lambda count: st.builds(
        Grid,
        st.just("x"),
        st.tuples(*[st.text("xyz", min_size=1, max_size=9)] * count),
        st.lists(st.tuples(*[words] * count), min_size=1, max_size=30).map(tuple),
        st.sets(st.integers(0, count - 1)).map(frozenset),
    )
)


@settings(max_examples=25)
@given(grid=grids)
def test_every_word_of_a_table_stands_on_a_page_and_within_it(grid: Grid) -> None:
    pages = pages_of(Section("x", (Words("x"), grid, Points(("x",)))))
    said = Counter(
        letter for page in pages for text in page if isinstance(text, Text) for letter in text.words
    )
    for letter in "bcdfg":
        assert said[letter] >= sum(cell.count(letter) for row in grid.rows for cell in row)
    assert "…" not in said
    for marks in pages:
        page = Page((210.0, 297.0), marks)
        assert overlaps(page) == ()
        for text in page.texts:
            for x, y in corners_of(text):
                assert LEFT - 0.1 <= x <= RIGHT + 0.1
                assert BOTTOM - 0.1 <= y <= TOP + 0.1


@settings(max_examples=25)
@given(grid=grids)
def test_a_table_is_no_wider_than_the_page(grid: Grid) -> None:
    assert sum(grid.widths) <= SPACE + 1e-6


def test_rows_are_told_once_and_the_names_of_the_columns_on_every_page() -> None:
    rows = tuple((f"row {number}", "1") for number in range(120))
    pages = pages_of(Section("title", (Grid("numbers", ("name", "figure"), rows, frozenset((1,))),)))
    texts = [[mark.words for mark in page if isinstance(mark, Text)] for page in pages]
    assert len(pages) == 3
    assert sorted(word for page in texts for word in page if word.startswith("row")) == sorted(
        r for r, _ in rows
    )
    assert all(page.count("name") == 1 for page in texts)
    assert ["numbers" in page for page in texts] == [True, False, False]
    assert ["numbers, continued" in page for page in texts] == [False, True, True]


def test_a_heading_is_not_left_alone_at_the_foot_of_a_page() -> None:
    for lines in range(40, 60):
        section = Section("title", (Points(("line",) * lines), Heading("what follows"), Words("follows")))
        for page in pages_of(section):
            told = [mark.words for mark in page if isinstance(mark, Text)]
            assert ("what follows" in told) == ("follows" in told)


def test_a_table_without_names_of_columns_has_no_empty_line_for_them() -> None:
    named, bare = Grid("", ("a", "b"), (("1", "2"),)), Grid("", ("", ""), (("1", "2"),))
    assert named.height - bare.height == named.heights[0]
    assert len([mark for mark in bare.marks((0.0, 0.0)) if isinstance(mark, Line)]) == 5


def test_a_column_gives_way_where_that_saves_lines() -> None:
    short, long = Column(["one two", "three four"]), Column(["many words in a row " * 6, "few"])
    found = widths_within([short, long], 70.0)
    assert sum(max(pair) for pair in zip(short.lines(found[0]), long.lines(found[1]), strict=True)) <= sum(
        max(pair) for pair in zip(short.lines(35.0), long.lines(35.0), strict=True)
    )
