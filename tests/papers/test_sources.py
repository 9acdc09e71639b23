"""No standard that the package goes by is left out of the sources, and none of them lacks its status."""

import ast
import re
from pathlib import Path

import pytest

import boxfit
from boxfit.papers.sources import MEMORY, PRACTICE, READ, sources, status_of
from boxfit.standards.bending import least_inside_radius
from boxfit.standards.load_factors import RULE_SETS
from boxfit.standards.materials import BOX_MATERIALS, MATERIALS
from boxfit.standards.strengths import STRENGTHS

PACKAGE = Path(boxfit.__file__).parent
STANDARD = re.compile(
    r"\b((?:EN ISO|DIN EN|ISO|EN|IEC|DIN|UNECE R|NCOP|AIS-|VDI|IS) ?\d+(?:-\d+)*)", re.ASCII
)
FORMAT = "ISO-10303-21"
"""A word of a file format, not a figure borrowed."""
NAMES = ("Roark", "Timoshenko", "Johansen", "Machinery's Handbook")


def words_of(file: Path) -> str:
    """Every string of a module, its docstrings too."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    found = [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    ]
    return re.sub(r"\s+", " ", " ".join(found)).replace(FORMAT, "")


def told() -> str:
    """All that the list of sources says."""
    return " ".join(f"{one.what} {one.source}" for one in sources())


FILES = [file for file in sorted(PACKAGE.rglob("*.py")) if "papers" not in file.relative_to(PACKAGE).parts]


@pytest.mark.parametrize("part", sorted({file.relative_to(PACKAGE).parts[0] for file in FILES}))
def test_every_standard_that_is_named_is_a_source(part: str) -> None:
    named = set()
    for file in FILES:
        if file.relative_to(PACKAGE).parts[0] == part:
            named |= {name.replace("DIN EN", "IEC") for name in STANDARD.findall(words_of(file))}
    listed = told()
    assert [name for name in sorted(named) if not re.search(rf"{re.escape(name)}(?!\d|-\d)", listed)] == []


def test_some_are_named_at_all() -> None:
    listed = STANDARD.findall(told())
    assert len(set(listed)) > 30
    assert all(name in told() for name in NAMES)


def test_tables_that_name_their_own_source_are_told_by_it() -> None:
    listed = {one.source for one in sources()}
    assert {one.source for one in MATERIALS.values()} <= listed
    assert {one.source for one in STRENGTHS.values()} <= listed
    assert all(any(rules.source in source for source in listed) for rules in RULE_SETS.values())


def test_the_least_radius_of_every_material_has_its_standard_in_the_list() -> None:
    listed = told()
    for material in BOX_MATERIALS:
        least = least_inside_radius(material, 2.0)
        for name in STANDARD.findall(least.source if least else ""):
            assert name in listed


def test_every_source_has_a_status_that_its_words_bear_out() -> None:
    for one in sources():
        assert one.status in (READ, MEMORY, PRACTICE, "read second hand", "the user's own")
        if one.source.startswith("common practice"):
            assert one.status == PRACTICE
    assert status_of("common practice, no source") == PRACTICE


def test_of_materials_only_those_used_are_listed() -> None:
    few = sources(("steel-s235",))
    assert [one.what for one in few if one.what.startswith("density")] == [
        "density of steel-s235, 7850 kg/m3"
    ]


HELD = {
    "bending": "least inside radius",
    "bolts": "bolt strengths",
    "cable_entry": "glands",
    "common_practice": "one person lifts",
    "conductors": "resistance of conductors",
    "heat": "pouch cells",
    "holes": "clearance holes",
    "insulation": "creepage",
    "lifting": "lifting",
    "load_factors": "rule set",
    "materials": "density",
    "plates": "plates",
    "strengths": "strength of",
    "usual_modules": "what is usual of a module",
    "welding": "edges before welding",
}
"""What stands in the list for each module of borrowed figures; a new module needs a line here and there."""


def test_every_module_of_borrowed_figures_has_its_place_in_the_list() -> None:
    modules = {file.stem for file in (PACKAGE / "standards").glob("*.py")} - {"__init__"}
    assert modules == set(HELD)
    for words in HELD.values():
        assert any(one.what.startswith(words) for one in sources())


def test_of_rule_sets_only_that_used_is_listed() -> None:
    few = sources((), RULE_SETS["r100-m1-n1"])
    assert [one.what for one in few if one.what.startswith("rule set")] == ["rule set r100-m1-n1"]
