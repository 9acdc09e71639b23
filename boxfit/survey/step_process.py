"""The second process that reads a STEP file: triangles of its solids and faces, into a file of their own."""

import sys
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from OCP.TopoDS import TopoDS_Face, TopoDS_Shape

DEFLECTION = 0.05
"""How far [mm] triangles may stand off a curved face."""
TURN = 0.5
"""How far [rad] a curved face may turn from one triangle to the next."""
WELDED = 1e-3
"""Points of neighbouring faces no further apart [mm] are one."""
SEWN = 0.01
"""Edges of loose faces no further apart [mm] are one."""
MOST_MEMORY = 1_800_000_000
"""Memory [bytes] the process may take."""
UNREADABLE, NO_FACES = 3, 4
"""What the process ends with where there is no surface."""

Points = NDArray[np.float64]
Triangles = NDArray[np.int64]


def _main(source: str, target: str) -> int:
    """What the second process does: the surface of one file into another."""
    _keep_to_share()
    shape = _shape(source)
    if shape is None:
        return UNREADABLE
    groups = [group for group in map(_welded, _parts(shape)) if len(group[1])]
    if not groups:
        return NO_FACES
    firsts = np.cumsum([0, *(len(points) for points, _ in groups)])
    np.savez(
        target,
        points=np.concatenate([points for points, _ in groups]),
        triangles=np.concatenate([found + first for (_, found), first in zip(groups, firsts, strict=False)]),
        off=0.0 if _is_flat(shape) else DEFLECTION,
    )
    return 0


def _keep_to_share() -> None:
    """No more memory than the survey may take; the system sees to it where it can."""
    if sys.platform != "win32":
        import resource

        resource.setrlimit(resource.RLIMIT_DATA, (MOST_MEMORY, MOST_MEMORY))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def _shape(source: str) -> "TopoDS_Shape | None":
    """Everything drawn in the file, in mm; None where nothing can be made of it."""
    from OCP.IFSelect import IFSelect_RetDone
    from OCP.STEPControl import STEPControl_Reader

    reader = STEPControl_Reader()
    if reader.ReadFile(source) != IFSelect_RetDone:
        return None
    reader.TransferRoots()
    return reader.OneShape() if reader.NbShapes() else _nothing()


def _nothing() -> "TopoDS_Shape":
    """A shape without faces."""
    from OCP.BRep import BRep_Builder
    from OCP.TopoDS import TopoDS_Compound

    empty = TopoDS_Compound()
    BRep_Builder().MakeCompound(empty)
    return empty


def _parts(shape: "TopoDS_Shape") -> list["TopoDS_Shape"]:
    """Every solid, and all faces that belong to none sewn into one."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_Sewing
    from OCP.TopAbs import TopAbs_FACE, TopAbs_SOLID
    from OCP.TopExp import TopExp_Explorer

    def every(kind: object, outside: object | None = None) -> list["TopoDS_Shape"]:
        explorer = TopExp_Explorer(shape, kind) if outside is None else TopExp_Explorer(shape, kind, outside)
        found = []
        while explorer.More():
            found.append(explorer.Current())
            explorer.Next()
        return found

    loose = every(TopAbs_FACE, TopAbs_SOLID)
    if not loose:
        return every(TopAbs_SOLID)
    sewing = BRepBuilderAPI_Sewing(SEWN)
    for face in loose:
        sewing.Add(face)
    sewing.Perform()
    return [*every(TopAbs_SOLID), sewing.SewedShape()]


def _welded(part: "TopoDS_Shape") -> tuple[Points, Triangles]:
    """Triangles of one part; neighbouring faces share their points, and outside is counter-clockwise."""
    from OCP.BRepMesh import BRepMesh_IncrementalMesh
    from OCP.TopAbs import TopAbs_FACE
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components
    from scipy.spatial import cKDTree

    BRepMesh_IncrementalMesh(part, DEFLECTION, False, TURN, False)
    corners: list[tuple[float, float, float]] = []
    triangles: list[tuple[int, int, int]] = []
    explorer = TopExp_Explorer(part, TopAbs_FACE)
    while explorer.More():
        _add_face(TopoDS.Face_s(explorer.Current()), corners, triangles)
        explorer.Next()
    points, found = np.array(corners).reshape(-1, 3), np.array(triangles, dtype=np.int64).reshape(-1, 3)
    pairs = cKDTree(points).query_pairs(WELDED, output_type="ndarray")
    size = len(points)
    links = coo_array((np.ones(len(pairs), dtype=np.int8), (pairs[:, 0], pairs[:, 1])), shape=(size, size))
    _, labels = connected_components(links, directed=False)
    _, kept = np.unique(labels, return_index=True)
    found = labels.astype(np.int64)[found]
    found = found[(found != np.roll(found, 1, axis=1)).all(axis=1)]
    points = points[kept]
    one, two, three = (points[found[:, k]] - points.mean(axis=0) for k in range(3))
    inside_out = float(np.einsum("ij,ij->", one, np.cross(two, three))) < 0.0
    return points, found[:, ::-1] if inside_out else found


def _add_face(
    face: "TopoDS_Face", corners: list[tuple[float, float, float]], triangles: list[tuple[int, int, int]]
) -> None:
    """The triangles of one face, where it stands."""
    from OCP.BRep import BRep_Tool
    from OCP.TopAbs import TopAbs_REVERSED
    from OCP.TopLoc import TopLoc_Location

    place = TopLoc_Location()
    facets = BRep_Tool.Triangulation_s(face, place)
    if facets is None:
        return
    move = place.Transformation()
    first = len(corners) - 1
    nodes = [facets.Node(number).Transformed(move) for number in range(1, facets.NbNodes() + 1)]
    corners.extend((node.X(), node.Y(), node.Z()) for node in nodes)
    turned = (face.Orientation() == TopAbs_REVERSED) != move.IsNegative()
    for number in range(1, facets.NbTriangles() + 1):
        one, two, three = facets.Triangle(number).Get()
        if turned:
            two, three = three, two
        triangles.append((first + one, first + two, first + three))


def _is_flat(shape: "TopoDS_Shape") -> bool:
    """Whether all faces are flat and all edges straight."""
    from OCP.BRepAdaptor import BRepAdaptor_Curve, BRepAdaptor_Surface
    from OCP.GeomAbs import GeomAbs_Line, GeomAbs_Plane
    from OCP.TopAbs import TopAbs_EDGE, TopAbs_FACE
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    faces = TopExp_Explorer(shape, TopAbs_FACE)
    while faces.More():
        if BRepAdaptor_Surface(TopoDS.Face_s(faces.Current())).GetType() != GeomAbs_Plane:
            return False
        faces.Next()
    edges = TopExp_Explorer(shape, TopAbs_EDGE)
    while edges.More():
        if BRepAdaptor_Curve(TopoDS.Edge_s(edges.Current())).GetType() != GeomAbs_Line:
            return False
        edges.Next()
    return True


if __name__ == "__main__":
    sys.exit(_main(sys.argv[1], sys.argv[2]))
