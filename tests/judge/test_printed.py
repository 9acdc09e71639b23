"""The judge of printed pieces passes a plate cut by hand, and finds each way of spoiling it."""

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import trimesh
from manifold3d import CrossSection, JoinType, Manifold

from boxfit.judge import printed
from boxfit.judge.finding import CODES
from boxfit.judge.printed import judge_printed
from boxfit.workshop import PrintShop

SHOP = PrintShop(bed=(100.0, 60.0, 30.0), joint=0.2, least_wall=1.2)


def save(folder: Path, name: str, body: Manifold) -> None:
    mesh = body.to_mesh64()
    triangles = np.asarray(mesh.tri_verts).astype(np.int64)
    trimesh.Trimesh(np.asarray(mesh.vert_properties)[:, :3], triangles, process=False).export(
        folder / f"{name}.stl"
    )


def slab(start: float, end: float, wide: float = 40.0, tall: float = 3.0) -> Manifold:
    return Manifold.cube((end - start, wide, tall)).translate((start, 0.0, 0.0))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A plate of 160 x 40 x 3 in two, 0.2 apart."""
    save(tmp_path, "plate", slab(0.0, 160.0))
    save(tmp_path, "plate-piece-1", slab(0.0, 80.0))
    save(tmp_path, "plate-piece-2", slab(80.2, 160.0))
    return tmp_path


def codes(folder: Path, stem: str = "plate", shop: PrintShop = SHOP) -> list[str]:
    findings = judge_printed(folder, {stem: shop})
    assert all(finding.code in CODES for finding in findings)
    return [finding.code for finding in findings]


def test_pieces_cut_by_hand_are_clear(folder: Path) -> None:
    assert codes(folder) == []


def test_what_is_not_there(folder: Path) -> None:
    assert codes(folder, "lid") == ["print-missing"]
    (folder / "plate-piece-2.stl").unlink()
    assert codes(folder) == ["print-volume"]


def test_a_part_without_pieces_is_printed_whole(folder: Path) -> None:
    save(folder, "gauge", slab(0.0, 60.0))
    assert codes(folder, "gauge") == []
    save(folder, "gauge", slab(0.0, 160.0))
    assert codes(folder, "gauge") == ["print-bed"]


def test_a_piece_may_lie_any_way_on_the_bed_that_is_square_to_it(folder: Path) -> None:
    assert codes(folder, shop=PrintShop(bed=(3.1, 41.0, 81.0))) == []
    assert codes(folder, shop=PrintShop(bed=(81.0, 39.0, 81.0))) == []
    assert codes(folder, shop=PrintShop(bed=(79.0, 79.0, 79.0))) == ["print-bed"] * 2


SPOILT: dict[str, Callable[[], Manifold]] = {
    "print-overlap": lambda: slab(79.0, 160.0),
    "print-fit": lambda: slab(80.1, 160.0),
    "print-volume": lambda: slab(90.0, 160.0),
    "print-outside": lambda: slab(80.2, 161.0),
    "print-loose": lambda: slab(80.2, 100.0) + slab(100.2, 160.0),
    "print-thin": lambda: slab(80.2, 160.0) - slab(100.0, 140.0, tall=2.0).translate((0.0, 0.0, 1.0 + 1e-3)),
}


@pytest.mark.parametrize("code", SPOILT)
def test_each_way_of_spoiling_is_found(folder: Path, code: str) -> None:
    save(folder, "plate-piece-2", SPOILT[code]())
    assert code in codes(folder)


def test_a_dovetail_at_its_fit_is_clear(folder: Path) -> None:
    """Drawn by hand: neck 8, head 12, 8 deep, its socket 0.2 larger all round."""
    key = CrossSection([[(79.0, 16.0), (80.0, 16.0), (88.0, 14.0), (88.0, 26.0), (80.0, 24.0), (79.0, 24.0)]])
    tight = slab(80.2, 160.0) - key.extrude(3.0)
    save(folder, "plate-piece-1", slab(0.0, 80.0) + key.extrude(3.0))
    save(folder, "plate-piece-2", tight)
    assert codes(folder) == ["print-fit"]
    save(folder, "plate-piece-2", slab(80.2, 160.0) - key.offset(0.2, JoinType.Miter).extrude(3.0))
    assert codes(folder) == []


def test_files_that_cannot_be_read_or_are_open(folder: Path) -> None:
    path = folder / "plate-piece-1.stl"
    mesh = trimesh.load_mesh(path)
    trimesh.Trimesh(mesh.vertices, mesh.faces[1:], process=False).export(path)
    assert codes(folder) == ["solid-open"]
    path.write_text("no mesh\n")
    assert codes(folder) == ["solid-invalid"]


def test_too_many_triangles(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(printed, "MOST_TRIANGLES", 12)
    assert codes(folder) == ["print-triangles"] * 2
