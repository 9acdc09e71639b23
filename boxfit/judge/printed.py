"""The judge of printed pieces: read back, they are closed, fit the bed, and make up the whole part."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations
from pathlib import Path
from typing import TYPE_CHECKING, Any

from boxfit.judge.finding import Finding
from boxfit.judge.solids import judge_mesh
from boxfit.workshop import PrintShop

if TYPE_CHECKING:
    from manifold3d import Manifold

MOST_AIR = 0.1
"""Share of a part that joints may take away for each mm of their air (common practice, no source)."""
SKIN = 1e-4
"""Faces that meet may overlap by so much [mm] in files: single precision at the length of a car."""
READ = 0.01
"""How far [mm] places of single precision and the corners of a mesh may be out."""
MOST_THIN = 0.02
"""Share of a piece's surface that may lie over thinner walls, as where a rib was cut along its length."""
MOST_TRIANGLES = 1_000_000
"""What a print shop's program takes (common practice, no source)."""
SEEN = 200
"""Triangles of a piece at which its wall is measured, the largest."""


@dataclass(frozen=True)
class _Piece:
    """A piece as read back; `mesh` is that of the mesh reader, which has no types."""

    name: str
    mesh: Any
    solid: "Manifold"


def judge_printed(folder: Path, shops: Mapping[str, PrintShop]) -> tuple[Finding, ...]:
    """Everything wrong with the pieces of the parts named, by the stem of their files, and who prints each.

    A part `tray` has its whole in tray.stl and its pieces in tray-piece-1.stl and so on, in their places; one
    without pieces is printed whole.
    Empty where every piece is clear. Files that cannot be read give findings too.
    """
    return tuple(finding for stem in sorted(shops) for finding in _judge_part(folder, stem, shops[stem]))


def _judge_part(folder: Path, stem: str, shop: PrintShop) -> Iterator[Finding]:
    """The pieces of one part, each by itself and all together."""
    whole_path = folder / f"{stem}.stl"
    paths = sorted(folder.glob(f"{stem}-piece-*.stl")) or [whole_path]
    if not whole_path.exists():
        yield Finding("print-missing", stem, "neither it nor pieces of it were written")
        return
    findings = [finding for path in (whole_path, *paths) for finding in judge_mesh(path)[1]]
    if findings:
        yield from findings
        return
    whole, *pieces = (_read(path) for path in (whole_path, *paths))
    for piece in pieces:
        yield from _judge_piece(piece, shop)
    yield from _judge_whole(whole, pieces, shop)
    for one, other in combinations(pieces, 2):
        yield from _judge_pair(one, other, shop)


def _read(path: Path) -> _Piece:
    """A closed mesh, for both of the libraries that measure it."""
    import manifold3d
    import numpy
    import trimesh

    mesh = trimesh.load_mesh(str(path))
    raw = manifold3d.Mesh64(mesh.vertices, mesh.faces.astype(numpy.uint64))
    return _Piece(path.stem, mesh, manifold3d.Manifold(raw))


def _judge_piece(piece: _Piece, shop: PrintShop) -> Iterator[Finding]:
    """It hangs together, lies on the bed one way or another, and is nowhere too thin."""
    bodies = len(piece.solid.decompose())
    if bodies != 1:
        yield Finding("print-loose", piece.name, f"{bodies} bodies in one file", float(bodies))
    if len(piece.mesh.faces) >= MOST_TRIANGLES:
        count = len(piece.mesh.faces)
        yield Finding("print-triangles", piece.name, f"{count} triangles", float(count))
    size = [float(side) for side in piece.mesh.extents]
    over = max(side - bed for side, bed in zip(sorted(size), sorted(shop.bed), strict=True))
    if over > READ:
        told = " x ".join(f"{side:.1f}" for side in size)
        yield Finding("print-bed", piece.name, f"{told} mm is {over:.1f} mm too long for the bed", over)
    thin = thin_share(piece.mesh, piece.solid, shop.least_wall - READ)
    if thin > MOST_THIN:
        text = f"{100.0 * thin:.0f} % of its surface lies over walls under {shop.least_wall:g} mm"
        yield Finding("print-thin", piece.name, text, thin)


def thin_share(mesh: Any, solid: "Manifold", least: float) -> float:
    """Share [-] of a closed mesh's surface over walls thinner than `least` [mm], by its largest triangles.

    A wall is measured from the middle of a triangle straight in, to where that leaves the body again.
    """
    import numpy

    order = numpy.argsort(-mesh.area_faces, kind="stable")[:SEEN]
    thin = seen = 0.0
    for place in order:
        start, inwards = mesh.triangles_center[place], -mesh.face_normals[place]
        seen += float(mesh.area_faces[place])
        if solid.ray_cast(start + inwards * READ, start + inwards * least):
            thin += float(mesh.area_faces[place])
    return thin / seen


def _judge_whole(whole: _Piece, pieces: list[_Piece], shop: PrintShop) -> Iterator[Finding]:
    """Together they are the whole less the air of the joints, and none reaches out of it."""
    share = sum(piece.solid.volume() for piece in pieces) / whole.solid.volume()
    if not 1.0 - MOST_AIR * shop.joint - SKIN <= share <= 1.0 + SKIN:
        text = f"its pieces are {100.0 * share:.2f} % of its volume"
        yield Finding("print-volume", whole.name, text, share)
    for piece in pieces:
        outside = (piece.solid - whole.solid).volume()
        if outside > READ + SKIN * piece.solid.surface_area():
            yield Finding("print-outside", piece.name, f"{outside:.1f} mm3 lie outside the part", outside)


def _judge_pair(one: _Piece, other: _Piece, shop: PrintShop) -> Iterator[Finding]:
    """Two pieces do not share room, and keep the joint's air between them."""
    (low, high), (start, end) = one.mesh.bounds, other.mesh.bounds
    if any(low[axis] > end[axis] + shop.joint or start[axis] > high[axis] + shop.joint for axis in range(3)):
        return
    place, shared = f"{one.name} and {other.name}", (one.solid ^ other.solid).volume()
    if shared > READ + SKIN * min(one.solid.surface_area(), other.solid.surface_area()):
        yield Finding("print-overlap", place, f"{shared:.1f} mm3 in one place", shared)
        return
    gap = one.solid.min_gap(other.solid, 2.0 * shop.joint + READ)
    if gap < shop.joint - READ:
        yield Finding("print-fit", place, f"{gap:.2f} mm of air, {shop.joint:g} needed", gap)
