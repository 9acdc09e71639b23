"""Makes the scans of the roadster demo from the prisms of its plain twin: rough, with gaps and specks.

    python -m tests.roadster_scan

writes them again; the same to the byte.
"""

from pathlib import Path

import numpy as np

from boxfit.bay import Prism
from boxfit.files.car import read_car
from boxfit.surface import Surface, Vector
from boxfit.survey.placed import turning
from tests.survey.scan import Scan, noisy_scan

BAYS = Path(__file__).parents[1] / "bays"
PLAIN, SCANNED = BAYS / "dunlin-850", BAYS / "dunlin-850-scan"
TURN: Vector = (90.0, 0.0, 90.0)
MOVES: dict[str, Vector] = {"front": (-180.0, 20.0, 250.0), "rear": (-1700.0, -15.0, 300.0)}
METRE = 1000.0


def scans() -> dict[str, bytes]:
    """The files' names and what is in them."""
    found = {}
    for seed, bay in enumerate(read_car(PLAIN).bays, start=1):
        assert isinstance(bay.room, Prism)
        stem = bay.name.removesuffix(" bay")
        scan = Scan(
            outline=bay.room.outline,
            floor=bay.room.floor,
            top=bay.room.top,
            pitch=18.0,
            noise=2.0,
            holes=5,
            specks=12,
            double=0.02,
            turned=0.03,
            open_above=stem == "front",
            seed=seed,
        )
        found[f"{stem}.ply"] = as_ply(noisy_scan(scan), MOVES[stem])
    return found


def as_ply(surface: Surface, move: Vector) -> bytes:
    """A binary PLY file in metres, in axes that `TURN` and then `move` [mm] bring to the car's."""
    points = ((surface.points - np.array(move)) @ turning(TURN) / METRE).astype("<f4")
    faces = np.zeros(len(surface.triangles), dtype=[("count", "u1"), ("corners", "<i4", 3)])
    faces["count"], faces["corners"] = 3, surface.triangles
    heading = (
        "ply\nformat binary_little_endian 1.0\ncomment an invented bay, in metres\n"
        f"element vertex {len(points)}\nproperty float x\nproperty float y\nproperty float z\n"
        f"element face {len(faces)}\nproperty list uchar int vertex_indices\nend_header\n"
    )
    data: bytes = heading.encode() + points.tobytes() + faces.tobytes()
    return data


if __name__ == "__main__":
    for name, data in scans().items():
        (SCANNED / name).write_bytes(data)
