"""The judge of finished parts: what was written is read back, and must be closed, whole and agree."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.judge.finding import Finding
from boxfit.judge.masses import AGREEMENT, judge_masses, plain

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray
    from OCP.TopoDS import TopoDS_Shape


def judge_solids(folder: Path) -> tuple[Finding, ...]:
    """Everything wrong with the parts in a folder: each .stl beside a .step of the same stem, and mass.json.

    Empty where every part is clear. Files that cannot be read give findings too.
    """
    findings: list[Finding] = []
    volumes: dict[str, float] = {}
    for mesh_path in sorted(folder.glob("*.stl")):
        step_path = mesh_path.with_suffix(".step")
        if step_path.exists():
            volume, found = _judge_part(step_path, mesh_path)
            findings += found
            volumes |= {plain(step_path.stem): volume} if volume > 0.0 else {}
    mass_path = folder / "mass.json"
    return (*findings, *(judge_masses(mass_path, volumes) if mass_path.exists() else []))


def _judge_part(step_path: Path, mesh_path: Path) -> tuple[float, list[Finding]]:
    """One part in both its files: its volume [mm3], 0 where not known, and what is wrong with it."""
    step_volume, findings = judge_step(step_path)
    mesh_volume, of_mesh = judge_mesh(mesh_path)
    findings += of_mesh
    if step_volume > 0.0 and mesh_volume > 0.0 and abs(mesh_volume / step_volume - 1.0) > AGREEMENT:
        text = f"{mesh_volume:.0f} mm3 in the STL file, {step_volume:.0f} mm3 in the STEP file"
        findings.append(Finding("solid-volume", step_path.stem, text, mesh_volume / step_volume))
    return step_volume, findings


def judge_step(path: Path) -> tuple[float, list[Finding]]:
    """The volume [mm3] of a STEP file's solids, 0 where it cannot be read, and what is wrong with them."""
    from OCP.IFSelect import IFSelect_ReturnStatus
    from OCP.STEPControl import STEPControl_Reader

    reader = STEPControl_Reader()
    if reader.ReadFile(str(path)) != IFSelect_ReturnStatus.IFSelect_RetDone:
        return 0.0, [Finding("solid-invalid", path.name, "cannot be read back")]
    try:
        reader.TransferRoots()
    except Exception as error:  # the kernel's errors share no base of their own
        return 0.0, [Finding("solid-invalid", path.name, f"cannot be read back: {error}")]
    if reader.NbShapes() == 0:
        return 0.0, [Finding("solid-invalid", path.name, "holds nothing")]
    shape = reader.OneShape()
    return _volume(shape), list(_judge_shape(path.name, shape))


def _volume(shape: "TopoDS_Shape") -> float:
    """Volume [mm3] of all solids of a shape."""
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    volume = 0.0
    for solid in _parts(shape, "SOLID"):
        properties = GProp_GProps()
        BRepGProp.VolumeProperties_s(solid, properties)
        volume += float(properties.Mass())
    return volume


def _parts(shape: "TopoDS_Shape", kind: str) -> "list[TopoDS_Shape]":
    """The different solids, shells or faces of a shape."""
    from OCP import TopAbs
    from OCP.TopExp import TopExp
    from OCP.TopTools import TopTools_IndexedMapOfShape

    found = TopTools_IndexedMapOfShape()
    TopExp.MapShapes_s(shape, getattr(TopAbs.TopAbs_ShapeEnum, f"TopAbs_{kind}"), found)
    return [found.FindKey(k) for k in range(1, found.Extent() + 1)]


def _judge_shape(place: str, shape: "TopoDS_Shape") -> Iterator[Finding]:
    """One solid or several together, nothing loose between them, all sound and closed."""
    from OCP.BRep import BRep_Tool
    from OCP.BRepCheck import BRepCheck_Analyzer

    solids = _parts(shape, "SOLID")
    of_solids = sum(len(_parts(solid, "FACE")) for solid in solids)
    loose = len(_parts(shape, "FACE")) - of_solids
    if not solids or loose:
        yield Finding("solid-invalid", place, f"{len(solids)} solids and {loose} loose faces")
    elif not BRepCheck_Analyzer(shape).IsValid():
        yield Finding("solid-invalid", place, "its surfaces, edges and corners do not fit each other")
    elif not all(BRep_Tool.IsClosed_s(shell) for shell in _parts(shape, "SHELL")):
        yield Finding("solid-open", place, "a solid has an open shell")


def judge_mesh(path: Path) -> tuple[float, list[Finding]]:
    """The volume [mm3] of an STL file's mesh, 0 where it cannot be read, and what is wrong with it."""
    import trimesh

    try:
        mesh = trimesh.load_mesh(str(path))
        volume, triangles = float(mesh.volume), mesh.faces
    except Exception as error:  # the reader's errors share no base of their own
        return 0.0, [Finding("solid-invalid", path.name, f"cannot be read back: {error}")]
    if len(triangles) == 0:
        return 0.0, [Finding("solid-invalid", path.name, "holds no triangles")]
    opened, crossed = edge_faults(triangles)
    if opened:
        return volume, [Finding("solid-open", path.name, f"{opened} open edges", float(opened))]
    if crossed or volume <= 0.0:
        text = f"{crossed} edges between triangles that face opposite ways, volume {volume:.0f} mm3"
        return volume, [Finding("solid-wound", path.name, text, volume)]
    return volume, []


def edge_faults(triangles: "NDArray[np.int64]") -> tuple[int, int]:
    """Edges with an odd number of triangles, and of the rest those run through more one way than the other.

    Both are 0 for closed bodies, also where two of them touch along an edge.

    >>> import numpy
    >>> pyramid = numpy.array([[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]])
    >>> edge_faults(pyramid), edge_faults(pyramid[:3]), edge_faults(pyramid[:, ::-1])
    ((0, 0), (3, 0), (0, 0))
    """
    import numpy as np

    runs = np.vstack([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]]).astype(np.int64)
    ordered = np.sort(runs, axis=1)
    _, edge = np.unique(ordered, axis=0, return_inverse=True)
    uses = np.bincount(edge.reshape(-1))
    balance = np.bincount(edge.reshape(-1), weights=np.sign(runs[:, 1] - runs[:, 0]))
    odd = uses % 2 == 1
    return int(odd.sum()), int(((balance != 0) & ~odd).sum())
