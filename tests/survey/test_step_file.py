"""STEP files drawn in another program."""

import contextlib
import random
import re
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest

from boxfit.survey.fault import SurveyError
from boxfit.survey.step_file import MOST_BYTES, read_step, stated_unit
from boxfit.survey.volume import volume_of
from tests.survey.sealed import is_one_skin, is_sealed

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Shape

FRAME = "ISO-10303-21;\nHEADER;\nENDSEC;\nDATA;\n{}\nENDSEC;\nEND-ISO-10303-21;\n"


def written(shape: "TopoDS_Shape", path: Path, unit: str = "MM") -> Path:
    """A STEP file of a shape given in mm."""
    from OCP.Interface import Interface_Static
    from OCP.Message import Message, Message_Gravity
    from OCP.STEPControl import STEPControl_StepModelType, STEPControl_Writer

    for printer in Message.DefaultMessenger_s().Printers():
        printer.SetTraceLevel(Message_Gravity.Message_Fail)
    STEPControl_Writer()
    Interface_Static.SetCVal_s("write.step.unit", unit)
    writer = STEPControl_Writer()
    writer.Transfer(shape, STEPControl_StepModelType.STEPControl_AsIs)
    writer.Write(str(path))
    Interface_Static.SetCVal_s("write.step.unit", "MM")
    return path


def block() -> "TopoDS_Shape":
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox

    return BRepPrimAPI_MakeBox(100.0, 200.0, 50.0).Shape()


def compound(shapes: list["TopoDS_Shape"]) -> "TopoDS_Shape":
    from OCP.BRep import BRep_Builder
    from OCP.TopoDS import TopoDS_Compound

    found = TopoDS_Compound()
    builder = BRep_Builder()
    builder.MakeCompound(found)
    for shape in shapes:
        builder.Add(found, shape)
    return found


def parts(shape: "TopoDS_Shape", face: bool) -> list["TopoDS_Shape"]:
    from OCP.TopAbs import TopAbs_EDGE, TopAbs_FACE
    from OCP.TopExp import TopExp_Explorer

    explorer = TopExp_Explorer(shape, TopAbs_FACE if face else TopAbs_EDGE)
    found = []
    while explorer.More():
        found.append(explorer.Current())
        explorer.Next()
    return found


@pytest.mark.parametrize(("unit", "stated"), [("MM", "mm"), ("INCH", "in")])
def test_any_unit_comes_out_in_mm(unit: str, stated: str, tmp_path: Path) -> None:
    path = written(block(), tmp_path / "block.step", unit)
    surface = read_step(path)
    assert stated_unit(path) == stated
    assert np.allclose((surface.low, surface.high), ((0.0, 0.0, 0.0), (100.0, 200.0, 50.0)), atol=1e-9)
    assert volume_of(surface) == pytest.approx(1e6)
    assert is_one_skin(surface)
    assert len(surface.triangles) == 12
    assert surface.off == 0.0


@pytest.mark.parametrize(("unit", "stated"), [("CM", "cm"), ("M", "m"), ("FT", "foot")])
def test_the_unit_is_told(unit: str, stated: str, tmp_path: Path) -> None:
    assert stated_unit(written(block(), tmp_path / "block.step", unit)) == stated


def test_round_faces_are_as_near_as_told(tmp_path: Path) -> None:
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeCylinder

    tube = BRepAlgoAPI_Cut(
        BRepPrimAPI_MakeCylinder(300.0, 80.0).Shape(), BRepPrimAPI_MakeCylinder(200.0, 80.0).Shape()
    ).Shape()
    surface = read_step(written(tube, tmp_path / "tube.step"))
    radii = np.linalg.norm(surface.corners[:, :, :2].mean(axis=1), axis=1)
    assert surface.off == 0.05
    assert is_one_skin(surface)
    assert volume_of(surface) == pytest.approx(np.pi * 80.0 * (300.0**2 - 200.0**2), rel=1e-3)
    round_ = np.ptp(np.linalg.norm(surface.corners[:, :, :2], axis=2), axis=1) < 1e-6
    assert min(abs(radii[round_][:, None] - (200.0, 300.0)).min(axis=1)) >= 0.0
    assert max(abs(radii[round_][:, None] - (200.0, 300.0)).min(axis=1)) <= 0.05


def test_a_mirrored_solid_and_one_in_another_place(tmp_path: Path) -> None:
    from OCP.gp import gp_Trsf, gp_Vec
    from OCP.TopLoc import TopLoc_Location

    away = gp_Trsf()
    away.SetTranslation(gp_Vec(1000.0, 0.0, 0.0))
    both = compound([block(), block().Moved(TopLoc_Location(away)), block().Reversed()])
    surface = read_step(written(both, tmp_path / "both.step"))
    assert surface.high == (1100.0, 200.0, 50.0)
    assert volume_of(surface) == pytest.approx(3e6)
    assert is_sealed(surface)


def test_loose_faces_are_sewn(tmp_path: Path) -> None:
    whole = read_step(written(compound(parts(block(), face=True)), tmp_path / "whole.step"))
    assert is_one_skin(whole)
    assert volume_of(whole) == pytest.approx(1e6)
    tub = read_step(written(compound(parts(block(), face=True)[:5]), tmp_path / "tub.step"))
    assert (len(tub.points), len(tub.triangles)) == (8, 10)


def test_nothing_is_printed(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    path = written(block(), tmp_path / "block.step")
    capfd.readouterr()
    read_step(path)
    with pytest.raises(SurveyError):
        read_step(broken(tmp_path, FRAME.format("#1=PLANE('',#2);")))
    assert capfd.readouterr() == ("", "")


def broken(folder: Path, text: str) -> Path:
    path = folder / "broken.step"
    path.write_text(text)
    return path


@pytest.mark.parametrize(
    ("text", "rule"),
    [
        ("", "must not be empty"),
        ("solid bay\nendsolid bay\n", 'must be a STEP file, beginning with "ISO-10303-21;"'),
        (FRAME.format("")[:40], 'must be whole: its end, "END-ISO-10303-21;", is missing'),
        ("ISO-10303-21;\nrubbish\nEND-ISO-10303-21;\n", "must"),
        (FRAME.format("#1=PLANE('',#2);"), "must"),
        (FRAME.format("#1=" * 1000), "must"),
    ],
)
def test_files_that_are_no_sound_step_file(text: str, rule: str, tmp_path: Path) -> None:
    with pytest.raises(SurveyError) as caught:
        read_step(broken(tmp_path, text))
    assert caught.value.key == "file"
    assert caught.value.rule.startswith(rule)


def test_lines_alone_are_no_bay(tmp_path: Path) -> None:
    path = written(compound(parts(block(), face=False)), tmp_path / "lines.step")
    with pytest.raises(SurveyError, match="must hold at least one solid or face"):
        read_step(path)


def test_what_cannot_be_read(tmp_path: Path) -> None:
    for path in (tmp_path / "none.step", tmp_path, Path("a\x00b.step")):
        with pytest.raises(SurveyError, match="must be a file that can be read"):
            read_step(path)


def test_a_file_too_large(tmp_path: Path) -> None:
    path = tmp_path / "large.step"
    with path.open("wb") as file:
        file.truncate(MOST_BYTES + 1_000_000)
    with pytest.raises(SurveyError) as caught:
        read_step(path)
    assert (caught.value.rule, caught.value.got) == ("must be no more than 200 MB", "201 MB")


def test_damaged_files_give_a_surface_or_a_plain_message(tmp_path: Path) -> None:
    path = written(block(), tmp_path / "block.step")
    whole, rolled = path.read_text(), random.Random(7)
    for _ in range(2):
        numbers = re.findall(r"#\d+", whole)
        text = whole
        for _ in range(6):
            text = text.replace(rolled.choice(numbers) + ",", rolled.choice(numbers) + ",")
        with contextlib.suppress(SurveyError):
            assert np.isfinite(read_step(broken(tmp_path, text)).points).all()


def test_a_file_of_two_units_states_none(tmp_path: Path) -> None:
    unit = "#{0}=(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT({1},.METRE.));"
    context = "#9=(GLOBAL_UNIT_ASSIGNED_CONTEXT(({0}))REPRESENTATION_CONTEXT('',''));"
    units = unit.format(1, ".MILLI.") + unit.format(2, "$") + unit.format(3, ".KILO.")
    assert stated_unit(broken(tmp_path, FRAME.format(units + context.format("#1,#7")))) == "mm"
    assert stated_unit(broken(tmp_path, FRAME.format(units + context.format("#2")))) == "m"
    assert stated_unit(broken(tmp_path, FRAME.format(units + context.format("#3")))) == "kilometre"
    assert stated_unit(broken(tmp_path, FRAME.format(units + context.format("#1,#2")))) is None
    assert stated_unit(broken(tmp_path, FRAME.format(units))) is None
