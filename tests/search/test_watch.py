"""A search under a watch: over at once it still answers, honestly."""

from boxfit.files.layout_json import layout_as_data
from boxfit.judge.layout import judge_layout
from boxfit.layout import Layout
from boxfit.search.find import find_layout
from boxfit.search.watch import Watch
from tests.search.test_alternatives import read


def test_time_and_hand_end_a_watch() -> None:
    assert not Watch().is_over
    assert Watch(seconds=-1.0).is_over
    stopped = Watch()
    stopped.stop()
    assert stopped.is_over


def test_who_listens_hears() -> None:
    heard: list[tuple[int, int | None]] = []
    watch = Watch(hear=lambda found, bound: heard.append((found, bound)))
    car, module = read("dunlin-850", "heron-44")
    assert isinstance(find_layout(car, module, watch), Layout)
    assert heard[0] == (9, None)
    assert all(found == 9 for found, _ in heard)


def test_no_time_at_all_gives_a_clear_layout_and_an_honest_bound() -> None:
    for name, stem, most in (("dunlin-850", "heron-44", 9), ("petrel-van", "wren-22", 33)):
        car, module = read(name, stem)
        found = find_layout(car, module, Watch(seconds=-1.0))
        assert isinstance(found, Layout)
        assert judge_layout(layout_as_data(found), car, module) == ()
        assert 0 < found.count <= most <= found.bound
        assert "ended before it was done" in found.notes[-1]
