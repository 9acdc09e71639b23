"""Mesh files: every format, and whatever else may stand under their endings."""

import gzip
import io
import struct
import tempfile
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import IO, Any

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st

from boxfit.surface import Surface
from boxfit.survey import raw, unpacked
from boxfit.survey.fault import SurveyError
from boxfit.survey.mesh_file import read_mesh, stated_unit

CUBE = trimesh.creation.box(extents=(800.0, 600.0, 400.0))
ENDINGS = (".stl", ".ply", ".obj", ".3mf")
CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"


def model(body: str, build: str, unit: str = ' unit="millimeter"') -> bytes:
    return (
        f'<?xml version="1.0"?><model{unit} xmlns="{CORE}" xmlns:p="urn:production">'
        f"<resources>{body}</resources><build>{build}</build></model>"
    ).encode()


def mesh_object(number: int, mesh: trimesh.Trimesh = CUBE) -> str:
    points = "".join(f'<vertex x="{x}" y="{y}" z="{z}"/>' for x, y, z in mesh.vertices)
    triangles = "".join(f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in mesh.faces)
    inner = f"<mesh><vertices>{points}</vertices><triangles>{triangles}</triangles></mesh>"
    return f'<object id="{number}" type="model">{inner}</object>'


def zipped(files: dict[str, bytes], method: int = zipfile.ZIP_DEFLATED) -> bytes:
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", method) as archive:
        for name, content in files.items():
            archive.writestr(name, content)
    return held.getvalue()


def threemf(body: str, build: str, unit: str = ' unit="millimeter"') -> bytes:
    return zipped({"3D/3dmodel.model": model(body, build, unit)})


BINARY_STL: bytes = CUBE.export(file_type="stl")
TEXT_STL: bytes = CUBE.export(file_type="stl_ascii").encode()
BINARY_PLY: bytes = CUBE.export(file_type="ply")
TEXT_PLY: bytes = CUBE.export(file_type="ply", encoding="ascii")
OBJ: bytes = CUBE.export(file_type="obj").encode()
THREEMF = threemf(mesh_object(1), '<item objectid="1"/>')
PLY_HEADING = (
    b"ply\nformat ascii 1.0\nelement vertex 3\nproperty float x\nproperty float y\nproperty float z\n"
    b"element face 1\nproperty list uchar int vertex_indices\nend_header\n"
)
TRIANGLE = b"v 0 0 0\nv 1 0 0\nv 0 1 0\n"
VALID = [
    ("scan.stl", BINARY_STL),
    ("scan.stl", TEXT_STL),
    ("scan.ply", BINARY_PLY),
    ("scan.ply", TEXT_PLY),
    ("SCAN.OBJ", OBJ),
    ("scan.3mf", THREEMF),
]


def read(folder: Path, name: str, content: bytes) -> Surface:
    path = folder / name
    path.write_bytes(content)
    return read_mesh(path)


def refused(folder: Path, name: str, content: bytes) -> SurveyError:
    with pytest.raises(SurveyError) as caught:
        read(folder, name, content)
    assert caught.value.key == "file"
    assert caught.value.got == f'"{name}"'
    assert caught.value.remedy
    return caught.value


def volume(surface: Surface) -> float:
    return float(trimesh.Trimesh(surface.points, surface.triangles).volume)


@pytest.mark.parametrize(("name", "content"), VALID)
def test_every_format_gives_the_same_solid(tmp_path: Path, name: str, content: bytes) -> None:
    surface = read(tmp_path, name, content)
    assert len(surface.triangles) == 12
    assert surface.low == (-400.0, -300.0, -200.0)
    assert surface.high == (400.0, 300.0, 200.0)
    assert volume(surface) == pytest.approx(800 * 600 * 400)


def test_text_stl_with_other_spacing_and_several_solids(tmp_path: Path) -> None:
    text = b"  " + TEXT_STL.replace(b"\n", b" \r\n\r\n").replace(b"vertex", b"VERTEX")
    assert len(read(tmp_path, "scan.stl", text + b"\n" + TEXT_STL).triangles) == 24


def test_binary_stl_whose_heading_says_solid(tmp_path: Path) -> None:
    content = b"solid".ljust(80) + BINARY_STL[80:]
    assert len(read(tmp_path, "scan.stl", content).triangles) == 12


@pytest.mark.parametrize("order", ["little", "big"])
def test_binary_ply_with_mixed_polygons_and_other_columns(tmp_path: Path, order: str) -> None:
    sign = "<" if order == "little" else ">"
    heading = (
        f"ply\nformat binary_{order}_endian 1.0\ncomment none\nelement thing 2\nproperty list uchar short a\n"
        "element vertex 5\nproperty uchar red\nproperty double x\nproperty double y\nproperty double z\n"
        "element face 2\nproperty float q\nproperty list uchar uint vertex_index\nproperty uchar f\n"
        "element edge 7\nproperty int a\nend_header\n"
    ).encode()
    things = struct.pack(f"{sign}B2hB1h", 2, 7, 7, 1, 7)
    points = b"".join(
        struct.pack(f"{sign}B3d", 9, *at) for at in [(0, 0, 0), (2, 0, 0), (2, 2, 0), (0, 2, 0), (0, 0, 5)]
    )
    faces = struct.pack(f"{sign}fB4IB", 0.5, 4, 0, 1, 2, 3, 8) + struct.pack(
        f"{sign}fB3IB", 0.5, 3, 0, 1, 4, 8
    )
    surface = read(tmp_path, "scan.ply", heading + things + points + faces + bytes(28))
    assert surface.triangles.tolist() == [[0, 1, 2], [0, 2, 3], [0, 1, 4]]
    assert surface.high == (2.0, 2.0, 5.0)


def test_text_ply_with_mixed_polygons(tmp_path: Path) -> None:
    heading = PLY_HEADING.replace(b"vertex 3", b"vertex 4").replace(b"face 1", b"face 2")
    rows = b"0 0 0\n1 0 0\n\n1 1 0\n0 1 1\n4 0 1 2 3\n3 0 1 3\n"
    assert read(tmp_path, "scan.ply", heading + rows).triangles.tolist() == [[0, 1, 2], [0, 2, 3], [0, 1, 3]]


def test_obj_counts_from_one_or_backwards(tmp_path: Path) -> None:
    text = b"# by hand\n" + TRIANGLE + b"v 1 1 0\nf 1/4/5 2//7 3\r\nf -4 -3 -1 -2\n"
    assert read(tmp_path, "scan.obj", text).triangles.tolist() == [[0, 1, 2], [0, 1, 3], [0, 3, 2]]


def test_obj_opens_no_other_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "other.mtl").write_text("newmtl a\nmap_Kd picture.png\n")
    (tmp_path / "scan.obj").write_bytes(b"mtllib other.mtl\nusemtl a\n" + TRIANGLE + b"f 1 2 3\n")
    opened: list[str] = []
    before = Path.open

    def spy(self: Path, mode: str = "r") -> IO[Any]:
        opened.append(self.name)
        return before(self, mode)

    monkeypatch.setattr(Path, "open", spy)
    read_mesh(tmp_path / "scan.obj")
    assert opened == ["scan.obj"]


def test_3mf_places_components_and_keeps_what_is_mirrored_outside_out(tmp_path: Path) -> None:
    body = mesh_object(1) + (
        '<object id="2"><components><component objectid="1" transform="1 0 0 0 1 0 0 0 1 1000 0 0"/>'
        '<component objectid="1"/></components></object>'
    )
    build = '<item objectid="2" transform="-1 0 0 0 1 0 0 0 2 0 0 50"/>'
    surface = read(tmp_path, "scan.3mf", threemf(body, build))
    assert surface.low == (-1400.0, -300.0, -350.0)
    assert surface.high == (400.0, 300.0, 450.0)
    assert volume(surface) == pytest.approx(2 * 800 * 600 * 800)


def test_3mf_finds_the_model_by_its_relations_and_objects_in_other_parts(tmp_path: Path) -> None:
    use = (
        '<object id="5"><components>'
        '<component p:path="/3D/Objects/a.model" objectid="1"/></components></object>'
    )
    relations = (
        b'<Relationships><Relationship Type="http://x/3dmodel" Target="/M/main.model"/></Relationships>'
    )
    files = {
        "_rels/.rels": relations,
        "M/main.model": model(use, '<item objectid="5"/>'),
        "3D/Objects/a.model": model(mesh_object(1), ""),
    }
    assert len(read(tmp_path, "scan.3mf", zipped(files)).triangles) == 12


@pytest.mark.parametrize(
    ("said", "unit"),
    [("millimeter", "mm"), ("centimeter", "cm"), ("meter", "m"), ("inch", "in"), ("foot", "foot")],
)
def test_stated_unit(tmp_path: Path, said: str, unit: str) -> None:
    path = tmp_path / "scan.3mf"
    path.write_bytes(threemf(mesh_object(1), '<item objectid="1"/>', f' unit="{said}"'))
    assert stated_unit(path) == unit


def test_no_unit_is_stated(tmp_path: Path) -> None:
    path = tmp_path / "scan.3mf"
    path.write_bytes(threemf(mesh_object(1), '<item objectid="1"/>', ""))
    assert stated_unit(path) is None
    assert stated_unit(tmp_path / "scan.stl") is None


def test_stated_unit_refuses_what_is_no_3mf(tmp_path: Path) -> None:
    path = tmp_path / "scan.3mf"
    path.write_bytes(b"PK\x03\x04 and no more")
    with pytest.raises(SurveyError, match="a \\.3mf is a zip"):
        stated_unit(path)
    with pytest.raises(SurveyError, match="does not exist"):
        stated_unit(tmp_path / "other.3mf")


MESSAGES: list[tuple[str, bytes, str]] = [
    ("a.step", b"ISO", "its ending is none of .stl, .ply, .obj, .3mf"),
    ("a.stl", b"", "is empty"),
    ("a.stl", b"\0" * 60, "is cut short: 60 bytes do not even hold its heading"),
    ("a.stl", BINARY_STL[:-1], "is cut short: for its 12 triangles it needs 684 bytes and has 683"),
    ("a.stl", BINARY_STL + b"\0", "is broken: for its 12 triangles it needs 684 bytes and has 685"),
    ("a.stl", bytes(84), "has no triangles"),
    ("a.stl", TEXT_STL[:-12], 'is cut short: it does not end in "endsolid"'),
    ("a.stl", TEXT_STL.replace(b"vertex", b"corner", 1), "is broken: triangle 1 has not three corners"),
    ("a.stl", TEXT_STL.replace(b"vertex", b"vertex nan", 1), "is broken: it has text where a number belongs"),
    ("a.stl", b"solid nothing\nendsolid\n".ljust(90), "has no triangles"),
    ("a.stl", zipped({"a.stl": BINARY_STL}), "is a zip, not the mesh its ending says"),
    ("a.stl", gzip.compress(BINARY_STL, mtime=0), "is a gzip archive, not the mesh its ending says"),
    ("a.obj", b"%PDF-1.7", "is a PDF, not the mesh its ending says"),
    ("a.ply", b"\x89PNG\r\n", "is a picture, not the mesh its ending says"),
    ("a.obj", b"ISO-10303-21;", "is a STEP file, not the mesh its ending says"),
    ("a.stl", TEXT_PLY, "is a .ply within"),
    ("a.ply", BINARY_STL, "is no .ply within"),
    ("a.ply", TEXT_PLY[:-9], "is cut short: it has 11 of its 12 face rows"),
    ("a.ply", BINARY_PLY[:-1], "is cut short: it does not hold its 12 face rows"),
    ("a.ply", BINARY_PLY[:300], "is cut short: "),
    ("a.ply", b"ply\nformat ascii 1.0\n", 'is cut short: its heading has no "end_header"'),
    ("a.ply", b"ply\nend_header\n", "is broken: its heading tells no known format"),
    ("a.ply", b"ply\nformat ascii 1.0\nend_header\n", "is broken: it must have points and faces, each once"),
    ("a.ply", PLY_HEADING.replace(b"face 1", b"face 99999999"), "has more than 2000000 triangles"),
    ("a.ply", PLY_HEADING.replace(b"vertex 3", b"vertex 9999999999"), "has more than 6000000 points"),
    ("a.ply", PLY_HEADING.replace(b"float x", b"floot x"), 'is broken: its heading has a column "floot x"'),
    ("a.ply", PLY_HEADING.replace(b" x\n", b" u\n") + b"0 0 0\n", "is broken: its vertex rows have no x"),
    ("a.ply", PLY_HEADING + b"0 0 0\n1 0 0\n0 1 0\n3 0 1\n", "is broken: a face row has too few numbers"),
    (
        "a.ply",
        PLY_HEADING + b"0 0 0\n1 0 0\n0 1 0\n3 0 1 3\n",
        "is broken: a triangle names a point that is not",
    ),
    (
        "a.ply",
        PLY_HEADING + b"0 0 0\n1 0 0\n0 1 nan\n3 0 1 2\n",
        "is broken: a point has a coordinate that is no",
    ),
    ("a.obj", TRIANGLE, "has no triangles"),
    ("a.obj", TRIANGLE + b"f 1 2 4\n", "is broken: a triangle names a point that is not there"),
    ("a.obj", TRIANGLE + b"f 1 2 0\n", "is broken: a face names point 0"),
    ("a.obj", TRIANGLE + b"f 1 2 -4\n", "is broken: a face names point -4"),
    ("a.obj", TRIANGLE + b"f 1 2\n", "is broken: a face has fewer than three corners"),
    ("a.obj", TRIANGLE + b"f 1 2 \\\n3\n", "is broken: a point or a face goes on over the end of its line"),
    ("a.obj", b"v 1 2\n", "is broken: a point has fewer than three numbers"),
    (
        "a.obj",
        TRIANGLE.replace(b"1", b"inf") + b"f 1 2 3\n",
        "is broken: a point has a coordinate that is no fin",
    ),
    (
        "a.obj",
        TRIANGLE.replace(b"1", b"1e30") + b"f 1 2 3\n",
        "is broken: a point lies more than a thousand mill",
    ),
    ("a.obj", TRIANGLE + b"f 1 2 99999999999999999999999\n", "is broken: it has text where a number belongs"),
    ("a.obj", b"v" * 5_000_000, "is broken: it has a line of several megabytes"),
    ("a.3mf", BINARY_STL, "is no zip, as every .3mf is"),
    ("a.3mf", THREEMF[:-30], "is broken: a .3mf is a zip, and this is none that opens"),
    ("a.3mf", zipped({"readme": b""}), "is broken: there is no 3D/3dmodel.model in it"),
    ("a.3mf", zipped({"3D/3dmodel.model": b"<model>"}), "is broken: its XML ends or goes wrong in line 1"),
    (
        "a.3mf",
        zipped({"3D/3dmodel.model": b"<a/>"}, zipfile.ZIP_LZMA),
        "is broken: it is packed in a way that no",
    ),
    (
        "a.3mf",
        zipped({"3D/3dmodel.model": b'<!DOCTYPE m [<!ENTITY a "b">]><m>&a;</m>'}),
        "is broken: its XML defines entities, which no .3mf may",
    ),
    ("a.3mf", threemf(mesh_object(1), ""), "has no triangles"),
    (
        "a.3mf",
        threemf("", '<item objectid="3"/>'),
        "is broken: it puts an object '3' to use that is not there",
    ),
    (
        "a.3mf",
        threemf("", '<item objectid="3" transform="1 0"/>'),
        "is broken: a transform has not twelve numbers",
    ),
    ("a.3mf", threemf("<object/>", ""), "is broken: a tag near line 1 lacks a number or a name"),
    (
        "a.3mf",
        zipped({"3D/3dmodel.model": b"<m a='" + b"x" * 2_000_000 + b"'/>"}),
        "is broken: a tag is a megaby",
    ),
]


@pytest.mark.parametrize(("name", "content", "rule"), MESSAGES)
def test_what_is_wrong_is_told(tmp_path: Path, name: str, content: bytes, rule: str) -> None:
    assert refused(tmp_path, name, content).rule.startswith(rule)


def test_missing_and_folder(tmp_path: Path) -> None:
    (tmp_path / "a.stl").mkdir()
    for name, rule in [("a.stl", "is a folder"), ("b.stl", "does not exist"), ("b\n.stl", "does not exist")]:
        with pytest.raises(SurveyError) as caught:
            read_mesh(tmp_path / name)
        assert caught.value.rule == rule
        assert "\n" not in str(caught.value.got)


@pytest.mark.parametrize("ending", ENDINGS)
def test_a_gigabyte_is_refused_before_it_is_read(tmp_path: Path, ending: str) -> None:
    path = tmp_path / f"scan{ending}"
    with path.open("wb") as file:
        file.truncate(1_000_000_000)
    with pytest.raises(SurveyError, match=rf"is 1000 MB; the most for \{ending} is \d+ MB"):
        read_mesh(path)


def test_too_many_triangles_by_the_heading_alone(tmp_path: Path) -> None:
    path = tmp_path / "scan.stl"
    with path.open("wb") as file:
        file.write(bytes(80) + struct.pack("<I", raw.MOST_TRIANGLES + 1))
        file.truncate(84 + 50 * (raw.MOST_TRIANGLES + 1))
    with pytest.raises(SurveyError, match="more than 2000000 triangles"):
        read_mesh(path)


def test_3mf_that_unpacks_to_too_much(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(unpacked, "MOST_UNPACKED", 1_000)
    assert "unpacked it is over" in refused(tmp_path, "a.3mf", THREEMF).rule


def test_3mf_whose_directory_understates_what_it_holds(tmp_path: Path) -> None:
    size = len(model(mesh_object(1), '<item objectid="1"/>'))
    content = THREEMF.replace(struct.pack("<I", size), struct.pack("<I", 100))
    assert refused(tmp_path, "a.3mf", content).rule.startswith("is broken")


def test_3mf_that_places_objects_without_end(tmp_path: Path) -> None:
    two = "".join(
        f'<object id="{n}"><components><component objectid="{n + 1}"/><component objectid="{n + 1}"/>'
        "</components></object>"
        for n in range(60)
    )
    body = two + mesh_object(60)
    assert "places more than" in refused(tmp_path, "a.3mf", threemf(body, '<item objectid="0"/>')).rule
    itself = '<object id="1"><components><component objectid="1"/></components></object>'
    assert "places more than" in refused(tmp_path, "a.3mf", threemf(itself, '<item objectid="1"/>')).rule


def ends_well(name: str, content: bytes) -> None:
    """The bytes give a sound surface or a SurveyError, nothing else."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / name
        path.write_bytes(content)
        for reading in (read_mesh, stated_unit):
            try_reading(reading, path)


def try_reading(reading: Callable[[Path], object], path: Path) -> None:
    try:
        found = reading(path)
    except SurveyError:
        return
    if isinstance(found, Surface):
        assert np.isfinite(found.points).all()
        assert 0 <= found.triangles.min() <= found.triangles.max() < len(found.points)


@settings(max_examples=150, deadline=None)
@given(
    ending=st.sampled_from(ENDINGS),
    start=st.sampled_from([b"", b"solid\n", b"PK\x03\x04", b"ply\n"]),
    data=st.binary(),
)
def test_random_bytes_end_well(ending: str, start: bytes, data: bytes) -> None:
    ends_well(f"scan{ending}", start + data)


@settings(max_examples=400, deadline=None)
@given(
    which=st.integers(0, len(VALID) - 1),
    changes=st.lists(
        st.tuples(st.floats(0, 1, exclude_max=True), st.binary(max_size=4), st.integers(0, 9)), max_size=6
    ),
    keep=st.sampled_from([1.0, 1.0, 0.9, 0.5]),
)
def test_spoiled_files_end_well(which: int, changes: list[tuple[float, bytes, int]], keep: float) -> None:
    name, content = VALID[which]
    for at, new, gone in changes:
        place = int(at * len(content))
        content = content[:place] + new + content[place + gone :]
    ends_well(name, content[: int(keep * len(content))])


@settings(max_examples=150, deadline=None)
@given(
    changes=st.lists(
        st.tuples(st.floats(0, 1, exclude_max=True), st.binary(max_size=4), st.integers(0, 9)),
        min_size=1,
        max_size=4,
    )
)
def test_spoiled_models_within_a_3mf_end_well(changes: list[tuple[float, bytes, int]]) -> None:
    content = model(mesh_object(1), '<item objectid="1"/>')
    for at, new, gone in changes:
        place = int(at * len(content))
        content = content[:place] + new + content[place + gone :]
    ends_well("scan.3mf", zipped({"3D/3dmodel.model": content}))
