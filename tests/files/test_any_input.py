"""Whatever stands in the files, reading gives the things or an InputError, never a traceback."""

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.car import Car
from boxfit.files.car import read_car
from boxfit.files.folder import find_module
from boxfit.files.module import read_module
from boxfit.files.problems import InputError
from boxfit.module import Module, stances
from tests.samples import CAR_FILES, MODULE, toml_text, write_car
from tests.strategies import spoiled_bytes, spoiled_tables

FILES = sorted(CAR_FILES)


def read_with(file: str, held: bytes) -> Car | Module | InputError:
    """What reading gives when one file of the sample holds these bytes."""
    with TemporaryDirectory() as root:
        folder = write_car(Path(root))
        module = Path(root) / "modules" / "heron-44.toml"
        (module if file == "module" else folder / file).write_bytes(held)
        try:
            return read_module(module) if file == "module" else read_car(folder)
        except InputError as error:
            return error


def well_told(outcome: Car | Module | InputError) -> bool:
    """True for a thing, and for an error whose every problem has a line and a remedy line."""
    if not isinstance(outcome, InputError):
        return True
    told = [str(problem).split("\n") for problem in outcome.problems]
    return bool(told) and all(len(lines) == 2 and lines[1].removeprefix("  try: ").strip() for lines in told)


@pytest.mark.parametrize("file", [*FILES, "module"])
@settings(max_examples=120, deadline=None)
@given(data=st.data())
def test_spoiled_keys_are_told(file: str, data: st.DataObject) -> None:
    table = data.draw(spoiled_tables({**CAR_FILES, "module": MODULE}[file]))
    outcome = read_with(file, toml_text(table).encode())
    assert well_told(outcome)
    if isinstance(outcome, Module):
        assert stances(outcome)


@pytest.mark.parametrize("file", [*FILES, "module"])
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_spoiled_bytes_are_told(file: str, data: st.DataObject) -> None:
    assert well_told(read_with(file, data.draw(spoiled_bytes({**CAR_FILES, "module": MODULE}[file]))))


@given(text=st.text(max_size=20))
@settings(deadline=None, max_examples=60)
def test_any_name_of_a_folder_or_module_is_told(text: str) -> None:
    with TemporaryDirectory() as root:
        with pytest.raises(InputError):
            read_car(Path(root) / f"{text}x")
        with pytest.raises(InputError):
            find_module(f"{text}?", Path(root))
