"""Bay files with sections, a scan and a solid, and the files they name. Everything in them is invented."""

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from zipfile import ZipFile

import pytest

from boxfit.bay import Shell, Surface, Vector
from boxfit.car import Car
from boxfit.files.car import read_car
from tests.samples import CAR_FILES, changed, write_car

LOW, HIGH = (-420.0, -340.0, 260.0), (250.0, 340.0, 640.0)
"""The room of every sample [mm]: 670 long, 680 wide, 380 high."""
VOLUME = 670.0 * 680.0 * 380.0

SECTIONS = """\
name = "front bay"

[survey]
tolerance = 3.0
kind = "sections"

[[survey.section]]
at = 250.0
outline = [[-340.0, 260.0], [340.0, 260.0], [340.0, 640.0], [-340.0, 640.0]]

[[survey.section]]
at = 0.0
outline = [[-340.0, 260.0], [340.0, 260.0], [340.0, 640.0], [-340.0, 640.0]]

[[survey.section]]
at = -420.0
outline = [[-340.0, 260.0], [340.0, 260.0], [340.0, 640.0], [-340.0, 640.0]]

[survey.reference]
between = [[250.0, -340.0, 300.0], [250.0, 340.0, 300.0]]
taped = 680.0

[opening]
way = "up"

[[keepout]]
name = "wiper arm"
kind = "cylinder"
from = [-300.0, 0.0, 600.0]
to = [-300.0, 100.0, 600.0]
diameter = 20.0
turns = { hinge = [[-300.0, 0.0, 600.0], [-300.0, 0.0, 700.0]], by = [0.0, 90.0] }
"""

MESH = """\
name = "front bay"

[survey]
tolerance = 3.0
kind = "mesh"
file = "scan.stl"
unit = "mm"
move = [0.0, 0.0, 0.0]
turn = [0.0, 0.0, 0.0]
reads = "room"
holes = 30.0
strays = 20.0

[survey.reference]
between = [[250.0, -340.0, 300.0], [250.0, 340.0, 300.0]]
taped = 680.0

[opening]
way = "up"

[[keepout]]
name = "wiper motor"
kind = "mesh"
file = "motor.stl"
unit = "mm"
clearance = 15.0
reason = "hot"

[[keepout]]
name = "bonnet hinge"
kind = "block"
low = [-400.0, 200.0, 500.0]
high = [-300.0, 220.0, 520.0]
moves = [[0.0, 0.0, -60.0], [0.0, 0.0, 80.0]]
"""

STEP = """\
name = "front bay"

[survey]
tolerance = 3.0
kind = "step"
file = "bay.step"
unit = "mm"

[opening]
way = "up"
"""

SHOPS = """
[fold_shop]
sheet = [2000, 1000.0]
brake = 2050.0
least_flange = 12.0
weld_gap = 0.4
weld_bead = 2.0
part_gap = 6.0
sheet_edge = 9.0
k = [{ thickness = 2.5, radius = 2.5, k = 0.41 }, { thickness = 2.5, radius = 4, k = 0.43 }]

[print_shop]
bed = [220.0, 210.0, 250]
joint = 0.3
least_wall = 1.6

[tolerances]
module = 0.4
liner = 0.2
cut = 0.1
fold = 0.3
fold_angle = 1
weld = 1.5
printed = 0.25
"""
MOUNTS = """
[[mount]]
name = "bracket, left"
at = [150.0, 320.0, 250.0]
faces = "up"
bolt = "M8"
body_thickness = 1.2

[[mount]]
name = "bracket, right"
at = [150.0, -320.0, 250.0]
faces = "left"
bolt = "M12"
body_thickness = 2
drilled = false
"""

SURVEYS = {"sections.toml": SECTIONS, "mesh.toml": MESH, "step.toml": STEP}
MOTOR_LOW, MOTOR_HIGH = (-300.0, -50.0, 560.0), (-200.0, 50.0, 640.0)


def spans(solid: Surface | Shell, low: Vector, high: Vector) -> bool:
    """True where the solid reaches from `low` to `high`, to a hundredth of a millimetre."""
    return solid.low == pytest.approx(low, abs=0.01) and solid.high == pytest.approx(high, abs=0.01)


def write_block(path: Path, low: Vector = LOW, high: Vector = HIGH) -> None:
    """A block as a file of triangles, in the form its ending says; a .3mf states millimetres."""
    import trimesh

    block = trimesh.creation.box(bounds=[low, high])
    if path.suffix == ".3mf":
        _write_3mf(path, block.vertices.tolist(), block.faces.tolist())
    else:
        block.export(path)


@cache
def step_block() -> bytes:
    """The room as a solid in millimetres."""
    import cadquery as cq

    length, width, height = (most - least for least, most in zip(LOW, HIGH, strict=True))
    with TemporaryDirectory() as folder:
        path = Path(folder) / "bay.step"
        cq.exporters.export(
            cq.Workplane().box(length, width, height, centered=False).translate(LOW), str(path)
        )
        return path.read_bytes()


def write_surveyed(root: Path, bay: str, files: dict[str, str]) -> Path:
    """A car folder with the one bay file named, and the scans it may name."""
    texts = {**CAR_FILES, **files}
    texts["car.toml"] = changed(texts["car.toml"], '["front.toml", "rear.toml"]', f'["{bay}"]')
    folder = write_car(root, {name: texts[name] for name in ("car.toml", bay)})
    write_block(folder / "scan.stl")
    write_block(folder / "motor.stl", MOTOR_LOW, MOTOR_HIGH)
    if bay == "step.toml":
        (folder / "bay.step").write_bytes(step_block())
    return folder


def read_surveyed(root: Path, bay: str, *changes: tuple[str, str]) -> Car:
    """The car whose only bay is the sample, with these changes to its text."""
    text = SURVEYS[bay]
    for old, new in changes:
        text = changed(text, old, new)
    return read_car(write_surveyed(root, bay, {bay: text}))


def _write_3mf(path: Path, points: list[list[float]], triangles: list[list[int]]) -> None:
    """The least that the core specification of the 3MF consortium asks for."""
    corners = "".join(f'<vertex x="{x}" y="{y}" z="{z}"/>' for x, y, z in points)
    faces = "".join(f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in triangles)
    mesh = f"<mesh><vertices>{corners}</vertices><triangles>{faces}</triangles></mesh>"
    schemas = "http://schemas.openxmlformats.org/package/2006"
    start = 'Target="/3D/3dmodel.model" Id="a" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"'
    core = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
    with ZipFile(path, "w") as packed:
        packed.writestr(
            "_rels/.rels",
            f'<Relationships xmlns="{schemas}/relationships"><Relationship {start}/></Relationships>',
        )
        packed.writestr(
            "3D/3dmodel.model",
            f'<model unit="millimeter" xmlns="{core}"><resources><object id="1" type="model">{mesh}</object>'
            '</resources><build><item objectid="1"/></build></model>',
        )
