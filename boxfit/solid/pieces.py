"""Cutting a mesh into keyed pieces, and pieces back into files."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.bay import Block, Point
from boxfit.box.print_joints import KEY_DEPTH, KEY_HEAD, KEY_NECK, Division, LevelCut, UprightCut
from boxfit.box_shape import grown
from boxfit.solid.mesh import Mesh

if TYPE_CHECKING:
    from manifold3d import CrossSection, Manifold

FAR = 1e5
"""Past everything in a car [mm]."""
FINEST = 1e-3
"""Corners nearer than this [mm] become one, so that a file of single precision stays closed."""


def solid_of(mesh: Mesh) -> "Manifold":
    """A mesh as a body that can be cut. Raises ValueError where it is not closed."""
    import manifold3d
    import numpy

    corners, place = numpy.unique(mesh.corners, axis=0, return_inverse=True)
    triangles = place.reshape(-1)[mesh.triangles]
    distinct = (triangles != numpy.roll(triangles, 1, axis=1)).all(axis=1)
    solid = manifold3d.Manifold(manifold3d.Mesh64(corners, triangles[distinct].astype(numpy.uint64)))
    if solid.status() != manifold3d.Error.NoError:
        raise ValueError(f"a mesh must be closed to be cut (got {solid.status()})")
    return solid


def block(one: Block) -> "Manifold":
    """A cuboid."""
    from manifold3d import Manifold

    size = [high - low for low, high in zip(one.low, one.high, strict=True)]
    return Manifold.cube(size).translate(one.low)


def read_stl(path: Path) -> Mesh:
    """The mesh of a binary STL file of our own [mm]."""
    import numpy

    record = numpy.dtype([("normal", "<f4", 3), ("facet", "<f4", (3, 3)), ("spare", "<u2")])
    rows = numpy.frombuffer(path.read_bytes(), dtype=record, offset=84)
    corners = rows["facet"].reshape(-1, 3).astype(numpy.float64)
    return Mesh(corners, numpy.arange(len(corners)).reshape(-1, 3))


def pieces_of(solid: "Manifold", division: Division) -> tuple["Manifold", ...]:
    """The pieces of a body, layer by layer from below, in each from the rear right; each hangs together."""
    found: list[Manifold] = []
    for layer in _layers(solid, division):
        for across in _cells(division, 0):
            for along in _cells(division, 1):
                bottom, top = layer.bounding_box()[2], layer.bounding_box()[5]
                prism = (across ^ along).extrude(top - bottom + 2.0).translate((0.0, 0.0, bottom - 1.0))
                whole = division.upright == ()
                bodies = (layer if whole else layer ^ prism).simplify(FINEST).decompose()
                found += sorted(bodies, key=lambda body: body.bounding_box())
    return tuple(found)


def _layers(solid: "Manifold", division: Division) -> Iterator["Manifold"]:
    """The body between its level cuts, from below."""
    for cut in division.level:
        yield solid ^ _below(cut)
        solid = solid ^ _above(cut, division.joint)
    yield solid


def _below(cut: LevelCut) -> "Manifold":
    """All that the piece under a level cut may fill."""
    low = (-FAR, -FAR, -FAR)
    filled = block(Block(low, (FAR, FAR, cut.at + cut.lap)))
    return filled - _column(cut.inner, cut.at - cut.lap) if cut.lap else filled


def _above(cut: LevelCut, joint: float) -> "Manifold":
    """All that the piece over it may fill, so that air of the joint stays between them."""
    filled = block(Block((-FAR, -FAR, cut.at + cut.lap + joint), (FAR, FAR, FAR)))
    if not cut.lap:
        return filled
    return filled + _column(grown(cut.inner, -joint), cut.at - cut.lap + joint)


def _column(outline: tuple[Point, ...], bottom: float) -> "Manifold":
    """All over an outline from a level [mm] up."""
    return _section([list(outline)]).extrude(FAR).translate((0.0, 0.0, bottom))


def _section(loops: list[list[Point]]) -> "CrossSection":
    """The inside of loops in plan, whichever way round they run."""
    from manifold3d import CrossSection, FillRule

    return CrossSection(loops, FillRule.EvenOdd)


def _cells(division: Division, axis: int) -> Iterator["CrossSection"]:
    """In plan, what lies between neighbouring cuts across an axis, from its low end on."""
    from manifold3d import JoinType

    rest = _section([[(-FAR, -FAR), (FAR, -FAR), (FAR, FAR), (-FAR, FAR)]])
    for cut in (cut for cut in division.upright if cut.axis == axis):
        low_side = _section([_low_side(cut)])
        yield rest ^ low_side
        rest = rest - low_side.offset(division.joint, JoinType.Miter, 2.0)
    yield rest


def _low_side(cut: UprightCut) -> list[Point]:
    """The corners in plan of all that lies at the low side of a cut, its dovetails and laps included."""
    line: list[Point] = [(-FAR, -2.0 * FAR), (cut.at, -2.0 * FAR)]
    steps = [
        (run.start, [(cut.at + run.shift, run.start), (cut.at + run.shift, run.end)]) for run in cut.runs
    ]
    steps += [(key, _dovetail(cut.at, key)) for key in cut.keys]
    for number, (_, corners) in enumerate(sorted(steps)):
        before, first = line[-1], corners[0]
        # two runs that meet step straight from one to the other
        if before[1] != first[1] or number == 0:
            line += [(cut.at, before[1]), (cut.at, first[1])]
        line += corners
    line += [(cut.at, line[-1][1]), (cut.at, 2.0 * FAR), (-FAR, 2.0 * FAR)]
    return line if cut.axis == 0 else [(y, x) for x, y in line]


def _dovetail(at: float, middle: float) -> list[Point]:
    """The corners of a dovetail that reaches to the high side of a cut."""
    neck, head, end = KEY_NECK / 2.0, KEY_HEAD / 2.0, at + KEY_DEPTH
    return [(at, middle - neck), (end, middle - head), (end, middle + head), (at, middle + neck)]


def mesh_of_piece(piece: "Manifold") -> Mesh:
    """A body's mesh in single precision, its corners and triangles in an order of their own. [mm]"""
    import numpy

    raw = piece.to_mesh64()
    rounded = numpy.asarray(raw.vert_properties)[:, :3].astype(numpy.float32)
    corners, place = numpy.unique(rounded + numpy.float32(0.0), axis=0, return_inverse=True)
    triangles = place.reshape(-1)[numpy.asarray(raw.tri_verts).astype(numpy.int64)]
    triangles = triangles[(triangles != numpy.roll(triangles, 1, axis=1)).all(axis=1)]
    first = triangles.argmin(axis=1)
    turned = numpy.stack([triangles[numpy.arange(len(first)), (first + k) % 3] for k in range(3)], axis=1)
    ordered = turned[numpy.lexsort(turned.T[::-1])]
    return Mesh(corners.astype(numpy.float64), ordered)
