"""A layout beside its alternatives: what is made of the best meanwhile takes no time from the search."""

from pathlib import Path

from boxfit.files.together import read_together
from boxfit.jobs.going_on import Search
from boxfit.jobs.laid_out import best_and_others
from boxfit.search.watch import Watch

ROOT = Path(__file__).parents[2]


def test_time_that_is_up_while_boxes_are_made_takes_no_alternative() -> None:
    car, (module,) = read_together(ROOT / "bays" / "dunlin-850", [str(ROOT / "modules" / "heron-44.toml")])
    watch = Watch()
    with best_and_others(car, module, Search(watch, 1, lambda _: None)) as looked_for:
        assert looked_for.best.alternatives == ()
        watch.stop()
        found = [one.what for one in looked_for.with_alternatives().alternatives]
    assert "without the spare wheel" in found
    assert any(what.startswith("lightest") for what in found)
