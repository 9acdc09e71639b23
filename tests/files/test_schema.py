"""The schemas that editors check by: shipped as made, true to the reader, and of some use.

Validated by jsonschema, a library that shares nothing with ours.
"""

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from pydantic import ValidationError

from boxfit.files.schema import KINDS, schema_of, schema_text, shipped
from tests.files.samples import MOUNTS, SHOPS, SURVEYS
from tests.files.test_messages import CASES, FILES
from tests.samples import CAR_FILES, MODULE, changed
from tests.strategies import changed_figures, spoiled_tables

ROOT = Path(__file__).parents[2]
VALIDATORS = {kind: Draft202012Validator(schema_of(kind)) for kind in KINDS}
TEXTS = {
    "car": [CAR_FILES["car.toml"] + SHOPS],
    "bay": [CAR_FILES["front.toml"] + MOUNTS, CAR_FILES["rear.toml"], *SURVEYS.values()],
    "module": [MODULE],
}
OF_ONE_VALUE = (
    "must be a number",
    "must be a whole number",
    "must be one of",
    "must be a name",
    "must be a short phrase",
    "must be a list",
    "must be true or false",
    "must be a table",
    "is not a known key",
    "is missing\n",
)
"""Rules that look at one value alone, as the messages begin them."""


def kind_of(file: str) -> str:
    """Which kind of file one of that name is."""
    return {"car.toml": "car", "heron-44.toml": "module"}.get(file, "bay")


def nodes(node: object) -> Iterator[dict[str, Any]]:
    """Every table of the tables."""
    if isinstance(node, dict):
        yield node
    for each in node.values() if isinstance(node, dict) else node if isinstance(node, list) else ():
        yield from nodes(each)


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_shipped_is_what_the_models_say(kind: str) -> None:
    assert shipped(kind) == schema_text(kind), "run: python -m boxfit.files.schema"
    Draft202012Validator.check_schema(schema_of(kind))


@pytest.mark.parametrize("kind", KINDS)
def test_every_key_has_a_line_of_help_and_every_number_its_bounds(kind: str) -> None:
    keys = [
        (name, key) for each in nodes(schema_of(kind)) for name, key in each.get("properties", {}).items()
    ]
    assert len(keys) > 15
    assert [name for name, key in keys if not key.get("description", "").endswith((".", "]"))] == []
    figures = [each for each in nodes(schema_of(kind)) if each.get("type") in ("number", "integer")]
    assert all({"minimum", "maximum"} <= each.keys() for each in figures)


@pytest.mark.parametrize("file", sorted([*ROOT.glob("bays/*/*.toml"), *ROOT.glob("modules/*.toml")]), ids=str)
def test_the_demo_files_are_valid(file: Path) -> None:
    kind = "module" if file.parent.name == "modules" else kind_of(file.name)
    table = tomllib.loads(file.read_text(encoding="utf-8"))
    assert [error.message for error in VALIDATORS[kind].iter_errors(table)] == []


@pytest.mark.parametrize(
    ("kind", "old", "new"),
    [
        ("car", "wheelbase = 2180.0", "wheelbase = 21800.0"),
        ("car", 'material = "aluminium-5754"', 'material = "tin"'),
        ("car", "tiers = 2", "tiers = 2.5"),
        ("car", "at = [-310.0, 0.0, 360.0]", "at = [-310.0, 0.0]"),
        ("car", 'name = "Dunlin 850"', 'name = "  "'),
        ("bay", 'kind = "cylinder"', 'kind = "block"'),
        ("bay", 'way = "up"', 'way = "upwards"'),
        ("bay", "top = 640.0", ""),
        ("bay", "negotiable = false", 'negotiable = "no"'),
        ("module", "mass = 11.6", "mass = true"),
        ("module", "energy = 2.2", "energi = 2.2"),
        ("module", 'up = ["height"]', 'up = ["height", "height"]'),
        ("module", "room = { top = 30.0 }", 'held = { at = ["front", "left"] }'),
    ],
)
def test_a_slip_is_seen_by_an_editor(kind: str, old: str, new: str) -> None:
    text = changed(TEXTS[kind][0], old, new)
    assert not VALIDATORS[kind].is_valid(tomllib.loads(text))


def test_every_slip_in_one_value_that_has_a_message_is_seen() -> None:
    """Over all messages word for word; what is not seen lies between keys or files. JSON knows no nan."""
    seen = []
    for case in CASES:
        if "(got nan)" in case.told:
            continue
        problems = case.told.removesuffix("\n").split("\n" + case.file)
        if not any(f": {rule}" in f"{problem}\n" for problem in problems for rule in OF_ONE_VALUE):
            continue
        try:
            table = tomllib.loads(changed(FILES[case.file], case.old, case.new))
        except tomllib.TOMLDecodeError:
            continue
        assert not VALIDATORS[kind_of(case.file)].is_valid(table), case.told
        seen.append(case)
    assert len(seen) > 50


@pytest.mark.parametrize("kind", KINDS)
@settings(max_examples=80, deadline=None)
@given(data=st.data())
def test_what_the_reader_accepts_the_schema_accepts(kind: str, data: st.DataObject) -> None:
    text = data.draw(st.sampled_from(TEXTS[kind]))
    table = data.draw(st.one_of(changed_figures(text), spoiled_tables(text)))
    try:
        KINDS[kind][0].model_validate(table)
    except ValidationError:
        return
    assert [error.message for error in VALIDATORS[kind].iter_errors(table)] == []
