"""Whatever stands in the files, reading gives the things or an InputError, never a traceback."""

from collections.abc import Callable
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
from tests.files.samples import MESH, MOUNTS, SHOPS, SURVEYS, write_block, write_surveyed
from tests.samples import CAR_FILES, MODULE, changed, toml_text, write_car
from tests.strategies import spoiled_bytes, spoiled_tables

FILES = [*sorted(CAR_FILES), "module"]
TEXTS = {
    **CAR_FILES,
    "car.toml": CAR_FILES["car.toml"] + SHOPS,
    "front.toml": CAR_FILES["front.toml"] + MOUNTS,
    **SURVEYS,
    "module": MODULE,
}


def read_with(file: str, held: bytes) -> Car | Module | InputError:
    """What reading gives when one file of the sample holds these bytes."""
    with TemporaryDirectory() as root:
        folder = write_surveyed(Path(root), file, SURVEYS) if file in SURVEYS else write_car(Path(root))
        module = Path(root) / "modules" / "heron-44.toml"
        (module if file == "module" else folder / file).write_bytes(held)
        return outcome(lambda: read_module(module) if file == "module" else read_car(folder))


def outcome(read: Callable[[], Car | Module]) -> Car | Module | InputError:
    """What is read, or the error."""
    try:
        return read()
    except InputError as error:
        return error


def well_told(found: Car | Module | InputError) -> bool:
    """True for a thing, and for an error whose every problem has a line and a remedy line."""
    if not isinstance(found, InputError):
        return True
    told = [str(problem).split("\n") for problem in found.problems]
    return bool(told) and all(len(lines) == 2 and lines[1].removeprefix("  try: ").strip() for lines in told)


@pytest.mark.parametrize("file", FILES)
@settings(max_examples=120, deadline=None)
@given(data=st.data())
def test_spoiled_keys_are_told(file: str, data: st.DataObject) -> None:
    table = data.draw(spoiled_tables(TEXTS[file]))
    found = read_with(file, toml_text(table).encode())
    assert well_told(found)
    if isinstance(found, Module):
        assert stances(found)


@pytest.mark.parametrize("file", FILES)
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_spoiled_bytes_are_told(file: str, data: st.DataObject) -> None:
    assert well_told(read_with(file, data.draw(spoiled_bytes(TEXTS[file]))))


@pytest.mark.parametrize("file", sorted(SURVEYS))
@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_spoiled_keys_of_a_survey_are_told(file: str, data: st.DataObject) -> None:
    table = data.draw(spoiled_tables(TEXTS[file]))
    assert well_told(read_with(file, toml_text(table).encode()))


@pytest.mark.parametrize("ending", ["stl", "ply", "obj", "3mf"])
@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_a_spoiled_scan_is_told(ending: str, data: st.DataObject) -> None:
    with TemporaryDirectory() as root:
        mesh = changed(MESH, "scan.stl", f"scan.{ending}")
        folder = write_surveyed(Path(root), "mesh.toml", {"mesh.toml": mesh})
        scan = folder / f"scan.{ending}"
        write_block(scan)
        held = scan.read_bytes()
        at = data.draw(st.integers(0, len(held)))
        gone = data.draw(st.sampled_from([0, 1, 5, len(held)]))
        scan.write_bytes(held[:at] + data.draw(st.binary(max_size=6)) + held[at + gone :])
        assert well_told(outcome(lambda: read_car(folder)))


@given(text=st.text(max_size=20))
@settings(deadline=None, max_examples=60)
def test_any_name_of_a_folder_or_module_is_told(text: str) -> None:
    with TemporaryDirectory() as root:
        with pytest.raises(InputError):
            read_car(Path(root) / f"{text}x")
        with pytest.raises(InputError):
            find_module(f"{text}?", Path(root))
