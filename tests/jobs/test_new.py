"""Whatever the options say: a folder that is read without a problem, or a message and nothing."""

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.files.car import read_car
from boxfit.files.problems import InputError, Problem
from boxfit.files.starting.given import Said
from boxfit.files.starting.questions import BAY, NAME, SHARE, TRACKS, WHEELBASE
from boxfit.jobs import new
from tests.strategies import bay_options, words_of_options


def problems_of(folder: Path, said: Said) -> tuple[Problem, ...]:
    """What is wrong with the options; none where the folder was made."""
    try:
        new(folder, said, None, print)
    except InputError as error:
        return error.problems
    return ()


@settings(max_examples=80, deadline=None)
@given(data=st.data())
def test_any_options_give_a_folder_or_a_message(data: st.DataObject) -> None:
    said = {
        WHEELBASE: [data.draw(st.one_of(st.just("2180"), words_of_options))],
        TRACKS: data.draw(
            st.one_of(st.just(["1180", "1160"]), st.lists(words_of_options, min_size=2, max_size=2))
        ),
        BAY: data.draw(st.lists(bay_options, min_size=1, max_size=2)),
        **({NAME: [data.draw(words_of_options)]} if data.draw(st.booleans()) else {}),
        **({SHARE: [data.draw(words_of_options)]} if data.draw(st.integers(0, 4)) == 0 else {}),
    }
    with TemporaryDirectory() as root:
        folder = Path(root) / "ours"
        problems = problems_of(folder, said)
        assert all(problem.file == "boxfit new" and problem.remedy for problem in problems)
        if problems:
            assert not any(Path(root).iterdir())
        else:
            assert len(read_car(folder).bays) == len(said[BAY])


@pytest.mark.parametrize("name", [" ", "a\nb", "x" * 150, 'été "1"'])
def test_any_name_of_a_folder_will_do_for_the_car(name: str, tmp_path: Path) -> None:
    said = {WHEELBASE: ["2180"], TRACKS: ["1180", "1160"], BAY: ["front,prism,up,670,740,340"]}
    assert problems_of(tmp_path / name, said) == ()
    assert read_car(tmp_path / name).name


def test_what_is_put_there_while_questions_are_answered_stays(tmp_path: Path) -> None:
    """Nothing is overwritten, however long somebody thinks about an answer."""
    folder = tmp_path / "ours"
    said = {WHEELBASE: ["2180"], BAY: ["front,prism,up,670,740,340"]}

    def ask(line: str) -> str:
        folder.mkdir(exist_ok=True)
        (folder / "mine.txt").write_text("mine")
        return "1180 1160\n" if line == TRACKS.asks else "\n"

    with pytest.raises(InputError):
        new(folder, said, ask, print)
    assert [one.name for one in folder.iterdir()] == ["mine.txt"]
