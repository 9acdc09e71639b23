"""The judge of retention: forces as written balance the load, loads are mass times factor, shares are right.

Read from retention.csv, retention-forces.csv and mass.json alone.
"""

import csv
import json
from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, isfinite, radians
from pathlib import Path

from boxfit.bay import Vector
from boxfit.judge.finding import Finding
from boxfit.standards.lifting import CARRYING, MOST_SLOPE, WORKING_COEFFICIENT
from boxfit.standards.load_factors import GRAVITY

CLOSE = 0.002
"""Forces may miss their balance by this share of the load [-]."""
WEIGHED = 0.02
"""Masses by closed form without fasteners and holes may miss those weighed by this share [-]."""
LIFTED, LIFTED_BY = "lifted", "bearing of the shackle's pin"
"""The pull that lugs are checked under, and the check whose load is the sling's own."""
WAYS = {
    "front": (1.0, 0.0, 0.0),
    "rear": (-1.0, 0.0, 0.0),
    "left": (0.0, 1.0, 0.0),
    "right": (0.0, -1.0, 0.0),
    "up": (0.0, 0.0, 1.0),
    "down": (0.0, 0.0, -1.0),
}


@dataclass(frozen=True)
class _Force:
    """A force [N] at a place [mm]."""

    at: Vector
    force: Vector


def judge_retention(folder: Path) -> tuple[Finding, ...]:
    """Everything wrong with the written forces and checks of a results folder."""
    try:
        forces = list(csv.DictReader((folder / "retention-forces.csv").read_text("utf-8").splitlines()))
        uses = list(csv.DictReader((folder / "retention.csv").read_text("utf-8").splitlines()))
        boxes = json.loads((folder / "mass.json").read_text("utf-8"))["boxes"]
        masses = {box["name"]: float(box["with_modules"]["mass"]) for box in boxes}
        return (*_judge_forces(forces, masses), *_judge_uses(uses, masses))
    except (OSError, ValueError, KeyError, TypeError) as error:
        return (Finding("retention-unread", "retention.csv", f"cannot be read back: {error!r}"),)


def _judge_forces(rows: list[dict[str, str]], masses: dict[str, float]) -> Iterator[Finding]:
    """Each pull of each box: the load, and its balance where fixings take it."""
    places: dict[tuple[str, str], list[dict[str, str]]] = {}
    for row in rows:
        places.setdefault((row["box"], row["pull"]), []).append(row)
    for name in sorted(masses.keys() - {box for box, _ in places}):
        yield Finding("retention-unread", name, "no forces are told of it")
    for (box, pull), (load, *fixings) in places.items():
        place = f"{box}, {pull}"
        yield from _judge_load(place, load, masses.get(box, 0.0))
        if fixings:
            yield from _judge_balance(place, _force(load), [_force(row) for row in fixings])


def _judge_load(place: str, row: dict[str, str], weighed: float) -> Iterator[Finding]:
    """The load is the box's mass times the factor, the way of the pull."""
    mass, expected = float(row["mass"]), float(row["mass"]) * float(row["factor"]) * GRAVITY
    if abs(mass - weighed) > WEIGHED * weighed:
        yield Finding("retention-mass", place, f"{mass:.2f} kg, weighed {weighed:.2f} kg", mass)
    off = max(
        abs(one - expected * way) for one, way in zip(_force(row).force, WAYS[row["pull"]], strict=True)
    )
    if off > CLOSE * expected:
        yield Finding("retention-load", place, f"{off:.1f} N off mass times factor times 9.81", off)


def _judge_lifted(place: str, load: float, weighed: float) -> Iterator[Finding]:
    """A sling off upright pulls with half the box's weight, so many times over."""
    upright = weighed * GRAVITY * WORKING_COEFFICIENT / CARRYING
    expected = upright / cos(radians(MOST_SLOPE))
    if not abs(load - expected) <= WEIGHED * expected:
        text = f"{load:.0f} N in a sling, {expected:.0f} N by the mass weighed"
        yield Finding("retention-load", place, text, load - expected)


def _judge_balance(place: str, load: _Force, fixings: list[_Force]) -> Iterator[Finding]:
    """Forces of all fixings add up to the load, and turn the box no way."""
    size = max(abs(part) for part in load.force)
    off = max(abs(load.force[k] - sum(one.force[k] for one in fixings)) for k in range(3))
    if not off <= CLOSE * size:
        yield Finding("retention-balance", place, f"forces miss the load by {off:.1f} N", off)
    reach = max(abs(one.at[k] - load.at[k]) for one in fixings for k in range(3))
    turning = [sum(_turning(one, load.at)[k] for one in fixings) for k in range(3)]
    worst = max(abs(part) for part in turning)
    if not worst <= CLOSE * size * max(reach, 1.0):
        yield Finding("retention-balance", place, f"forces turn the box with {worst:.0f} N mm", worst)


def _turning(one: _Force, about: Vector) -> Vector:
    """Moment [N mm] of a force about a place."""
    x, y, z = (a - b for a, b in zip(one.at, about, strict=True))
    u, v, w = one.force
    return (y * w - z * v, z * u - x * w, x * v - y * u)


def _force(row: dict[str, str]) -> _Force:
    x, y, z, u, v, w = (float(row[key]) for key in ("x", "y", "z", "force x", "force y", "force z"))
    return _Force((x, y, z), (u, v, w))


def _judge_uses(rows: list[dict[str, str]], masses: dict[str, float]) -> Iterator[Finding]:
    """Each utilisation is load over resistance; what does not pass has a remedy; every box is told of."""
    for name in sorted(masses.keys() - {row["box"] for row in rows}):
        yield Finding("retention-unread", name, "no check is told of it")
    for row in rows:
        place = f"{row['item']}, {row['check']}"
        if row["pull"] == LIFTED and row["check"] == LIFTED_BY:
            yield from _judge_lifted(place, float(row["load"]), masses.get(row["box"], 0.0))
        load, bears = float(row["load"]), float(row["resistance"])
        used = load / bears if bears else float("inf") if load else 0.0
        told = float(row["utilisation"].replace("endless", "inf"))
        if isfinite(used) != isfinite(told) or (isfinite(used) and abs(used - told) > 0.005 + 0.01 * used):
            yield Finding(
                "retention-share", place, f"{told:.3f} told, {used:.3f} by load and resistance", told
            )
        if (row["passes"] == "yes") != (told <= 1.0):
            yield Finding("retention-share", place, "passes and its utilisation contradict each other", told)
        if told > 1.0 and not row["what to change"]:
            yield Finding(
                "retention-remedy", place, "does not pass, and nothing is told that would help", told
            )
