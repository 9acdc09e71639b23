"""The masses of a mass.json: reckoned in several ways, and from the files read back, they agree."""

import json
from collections.abc import Iterator, Mapping
from math import isfinite
from pathlib import Path

from boxfit.judge.finding import Finding
from boxfit.standards.materials import MATERIALS

AGREEMENT = 0.005
"""How far two ways of reckoning the same part may be apart [-]: a mesh cuts the corners of its bends."""


def judge_masses(path: Path, volumes: Mapping[str, float]) -> list[Finding]:
    """Every part that tells its mass reckoned several ways tells about the same each time.

    `volumes` [mm3] are those of the parts read back, under their `plain` names.
    """
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
    except ValueError as error:
        return [Finding("solid-invalid", path.name, f"cannot be read back: {error}")]
    return [finding for part, ways in _parts(data) for finding in _judge_part(part, ways, volumes)]


def _parts(data: object) -> Iterator[tuple[dict[str, object], dict[str, object]]]:
    """Every table with a mass and the ways it was reckoned, however deep it lies."""
    if isinstance(data, dict):
        ways = data.get("by")
        if isinstance(ways, dict):
            yield data, ways
        data = list(data.values())
    if isinstance(data, list):
        for item in data:
            yield from _parts(item)


def plain(name: str) -> str:
    """A name's letters and figures alone, as a part and its file share them.

    >>> plain("front bay, box 1: tray") == plain("front-bay-box-1-tray")
    True
    """
    return "".join(sign for sign in name.lower() if sign.isalnum())


def _judge_part(
    part: dict[str, object], ways: dict[str, object], volumes: Mapping[str, float]
) -> list[Finding]:
    """The mass and each way it was reckoned are figures above 0, and near each other."""
    told = {"mass": part.get("mass"), **{way: mass for way, mass in ways.items() if mass is not None}}
    place, material = str(part.get("name", "part without a name")), part.get("material")
    if plain(place) in volumes and isinstance(material, str) and material in MATERIALS:
        told["file read back"] = MATERIALS[material].density * 1e-9 * volumes[plain(place)]
    masses = [float(mass) for mass in told.values() if isinstance(mass, int | float) and isfinite(mass)]
    if len(masses) < len(told) or min(masses) <= 0.0:
        return [Finding("solid-mass", place, f"a mass is no figure above 0: {told}")]
    ratio = max(masses) / min(masses)
    if ratio <= 1.0 + AGREEMENT:
        return []
    listed = ", ".join(f"{way} {mass:.4f} kg" for way, mass in zip(told, masses, strict=True))
    return [Finding("solid-mass", place, listed, ratio)]
