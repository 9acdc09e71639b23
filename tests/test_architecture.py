"""The order of the house: which way imports point, what stays light, how small things stay."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "boxfit"
FILES = sorted(PACKAGE.rglob("*.py"))
NAMES = [str(file.relative_to(PACKAGE)) for file in FILES]

THINGS = frozenset(
    {
        "surface",
        "workshop",
        "bay",
        "box_shape",
        "module",
        "car",
        "layout",
        "box_details",
        "lid_details",
        "box_blank",
        "box_ribs",
    }
)
SUMS = frozenset({"weight", "electrics", "retention"})
BASE = THINGS | SUMS | {"standards"}
ABOVE_BOX = BASE | {"space", "search", "box"}
MAY_IMPORT: dict[str, frozenset[str]] = {
    "surface": THINGS,
    "workshop": THINGS,
    "bay": THINGS,
    "box_shape": THINGS,
    "module": THINGS,
    "car": THINGS,
    "layout": THINGS,
    "box_details": THINGS | {"standards"},
    "lid_details": THINGS | {"standards"},
    "box_blank": THINGS | {"standards"},
    "box_ribs": THINGS,
    "standards": BASE,
    "weight": BASE,
    "electrics": BASE,
    "retention": BASE,
    "survey": THINGS | {"standards"},
    "files": THINGS | {"standards", "survey", "weight"},
    "judge": THINGS | {"standards"},
    "space": BASE,
    "search": BASE | {"space"},
    "box": BASE | {"space", "search"},
    "solid": ABOVE_BOX,
    "sheet": ABOVE_BOX,
    "report": ABOVE_BOX,
    "papers": ABOVE_BOX | {"sheet", "report"},
}
"""What each part may import besides itself; a part named neither here nor below has no place yet."""
AT_THE_TOP = {"cli", "cli_asking", "cli_options", "cli_progress", "jobs", "__init__", "__main__"}
"""These may import all that stands below them, and nothing below imports them."""

HEAVY = {
    "cadquery",
    "OCP",
    "ezdxf",
    "manifold3d",
    "ortools",
    "matplotlib",
    "rectpack",
    "reportlab",
    "trimesh",
}
"""Imported only inside the functions that use them."""
LEFT_FOR_LATER = HEAVY | {"shapely"}
"""Not loaded by `boxfit --help`."""
MOST_LINES = 300
LONGEST_BODY = 45
MOST_PARAMETERS = 6

Function = ast.FunctionDef | ast.AsyncFunctionDef


def tree(file: Path) -> ast.Module:
    return ast.parse(file.read_text(encoding="utf-8"))


def part_of(file: Path) -> str:
    """The package or the single file directly under boxfit/ that a file belongs to."""
    return file.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imported(node: ast.AST) -> list[str]:
    """Full names of the modules one import statement asks for; relative ones start with a dot."""
    if isinstance(node, ast.Import):
        return [alias.name for alias in node.names]
    if isinstance(node, ast.ImportFrom):
        base = "." * node.level + (node.module or "")
        return [f"boxfit.{alias.name}" for alias in node.names] if base == "boxfit" else [base]
    return []


def own_imports(file: Path) -> set[str]:
    """Parts of boxfit that a file imports, wherever in the file it does so."""
    names = [name for node in ast.walk(tree(file)) for name in imported(node)]
    return {name.split(".")[1] for name in names if name.startswith("boxfit.")}


def made_on_import(nodes: list[ast.stmt]) -> Iterator[ast.stmt]:
    """The statements that run when a module is imported, those inside if, try, with and class included."""
    for node in nodes:
        yield node
        if isinstance(node, Function) or (
            isinstance(node, ast.If) and "TYPE_CHECKING" in ast.dump(node.test)
        ):
            continue
        for block in ("body", "orelse", "finalbody"):
            yield from made_on_import(getattr(node, block, []))
        for handler in getattr(node, "handlers", []):
            yield from made_on_import(handler.body)


def functions(file: Path) -> list[Function]:
    return [node for node in ast.walk(tree(file)) if isinstance(node, Function)]


def public(nodes: list[ast.stmt]) -> Iterator[Function | ast.ClassDef]:
    """Public functions and classes of a module, and the public methods of those classes."""
    for node in nodes:
        if isinstance(node, Function | ast.ClassDef) and not node.name.startswith("_"):
            yield node
            if isinstance(node, ast.ClassDef):
                yield from public(node.body)


def test_there_is_something_to_look_at() -> None:
    assert "cli.py" in NAMES
    assert len(FILES) > 50


@pytest.mark.parametrize("file", FILES, ids=NAMES)
def test_imports_point_one_way(file: Path) -> None:
    part = part_of(file)
    found = own_imports(file) - {part}
    assert "cli" not in found
    if part not in AT_THE_TOP:
        assert sorted(found - MAY_IMPORT[part]) == []


def test_nothing_is_imported_by_a_relative_name() -> None:
    relative = {
        name
        for name, file in zip(NAMES, FILES, strict=True)
        for node in ast.walk(tree(file))
        for module in imported(node)
        if module.startswith(".")
    }
    assert relative == set()


def test_no_two_parts_wait_for_each_other() -> None:
    """Whatever the table above allows, the imports that are there form no ring."""
    wanted: dict[str, set[str]] = {}
    for file in FILES:
        wanted.setdefault(part_of(file), set()).update(own_imports(file) - {part_of(file)})
    while True:
        free = {part for part, others in wanted.items() if not others & wanted.keys()}
        if not free:
            break
        wanted = {part: others for part, others in wanted.items() if part not in free}
    assert wanted == {}


@pytest.mark.parametrize("file", FILES, ids=NAMES)
def test_heavy_libraries_wait_until_they_are_used(file: Path) -> None:
    names = {name.split(".")[0] for node in made_on_import(tree(file).body) for name in imported(node)}
    assert sorted(names & HEAVY) == []


def test_the_command_line_starts_without_heavy_libraries() -> None:
    """`boxfit --help` answers at once."""
    asked = "import sys, boxfit.cli; print(*sorted({name.split('.')[0] for name in sys.modules}))"
    run = subprocess.run(
        [sys.executable, "-c", asked], capture_output=True, text=True, check=True, cwd=PACKAGE.parent
    )
    loaded = set(run.stdout.split())
    assert "boxfit" in loaded
    assert sorted(loaded & LEFT_FOR_LATER) == []


@pytest.mark.parametrize("file", FILES, ids=NAMES)
def test_files_and_functions_stay_small(file: Path) -> None:
    assert len(file.read_text(encoding="utf-8").splitlines()) <= MOST_LINES
    long_bodies, many_parameters, open_ended = [], [], []
    for function in functions(file):
        body = function.body[1:] if ast.get_docstring(function) else function.body
        if body and (body[-1].end_lineno or 0) - body[0].lineno + 1 > LONGEST_BODY:
            long_bodies.append(function.name)
        taken = [*function.args.posonlyargs, *function.args.args, *function.args.kwonlyargs]
        if len([one for one in taken if one.arg not in ("self", "cls")]) > MOST_PARAMETERS:
            many_parameters.append(function.name)
        if function.args.kwarg is not None:
            open_ended.append(function.name)
    assert (long_bodies, many_parameters, open_ended) == ([], [], [])


@pytest.mark.parametrize("file", FILES, ids=NAMES)
def test_everything_public_is_documented(file: Path) -> None:
    bare = [node.name for node in public(tree(file).body) if not ast.get_docstring(node)]
    assert bare == []
    assert ast.get_docstring(tree(file))
