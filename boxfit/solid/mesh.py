"""Closed triangle meshes of solids, and STL files of them."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.bay import Vector

if TYPE_CHECKING:
    import numpy
    from numpy.typing import NDArray
    from OCP.TopoDS import TopoDS_Shape

SAG = 0.1
"""How far [mm] a triangle may stand off a round face."""
TURN = 0.5
"""How far [rad] the surface may turn from one triangle to the next."""
STL_HEADER = b"boxfit, unit millimetre"


@dataclass(frozen=True, eq=False)
class Mesh:
    """Corners [mm], one row each, and triangles as rows of three corner numbers, outside anti-clockwise."""

    corners: "NDArray[numpy.float64]"
    triangles: "NDArray[numpy.int64]"

    @property
    def volume(self) -> float:
        """Volume [mm3]: the signed tetrahedra over all triangles, from a corner of the mesh."""
        import numpy

        first, second, third = (self.corners[self.triangles[:, k]] - self.corners[0] for k in range(3))
        return float(numpy.einsum("ij,ij->", first, numpy.cross(second, third)) / 6.0)

    def moved(self, shift: Vector) -> "Mesh":
        """The mesh elsewhere, by `shift` [mm]."""
        return self if shift == (0.0, 0.0, 0.0) else Mesh(self.corners + shift, self.triangles)


def mesh_of(shape: "TopoDS_Shape") -> Mesh:
    """The mesh of a solid, face by face in the solid's own order; faces do not share corners."""
    import numpy
    from OCP.BRep import BRep_Tool
    from OCP.BRepMesh import BRepMesh_IncrementalMesh
    from OCP.TopAbs import TopAbs_FACE, TopAbs_REVERSED
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopLoc import TopLoc_Location
    from OCP.TopoDS import TopoDS

    BRepMesh_IncrementalMesh(shape, SAG, False, TURN, False)
    corners: list[tuple[float, float, float]] = []
    triangles: list[tuple[int, int, int]] = []
    explorer = TopExp_Explorer(shape, TopAbs_FACE)
    while explorer.More():
        face = TopoDS.Face_s(explorer.Current())
        facets, place = BRep_Tool.Triangulation_s(face, TopLoc_Location()), face.Location().Transformation()
        first = len(corners) - 1
        nodes = [facets.Node(number).Transformed(place) for number in range(1, facets.NbNodes() + 1)]
        corners.extend((node.X(), node.Y(), node.Z()) for node in nodes)
        for number in range(1, facets.NbTriangles() + 1):
            one, two, three = facets.Triangle(number).Get()
            if face.Orientation() == TopAbs_REVERSED:
                two, three = three, two
            triangles.append((first + one, first + two, first + three))
        explorer.Next()
    return Mesh(numpy.array(corners), numpy.array(triangles))


def write_stl(mesh: Mesh, path: Path) -> None:
    """A binary STL file in millimetres."""
    import numpy

    facets = mesh.corners[mesh.triangles]
    normals = numpy.cross(facets[:, 1] - facets[:, 0], facets[:, 2] - facets[:, 0])
    lengths = numpy.linalg.norm(normals, axis=1, keepdims=True)
    # a triangle without area, as cutting may leave to keep a mesh closed, has no way that it looks
    normals /= numpy.where(lengths > 0.0, lengths, 1.0)
    record = numpy.dtype([("normal", "<f4", 3), ("facet", "<f4", (3, 3)), ("spare", "<u2")])
    rows = numpy.zeros(len(facets), dtype=record)
    rows["normal"], rows["facet"] = normals, facets
    head = STL_HEADER.ljust(80) + len(rows).to_bytes(4, "little")
    path.write_bytes(head + rows.tobytes())
