"""The finished build on its wheels: mass.json and the readings against weights.csv, limits and target."""

import csv
import json
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Annotated

from pydantic import BaseModel, Field, ValidationError

from boxfit.car import Car, CornerWeights, PointMass
from boxfit.judge.claim import Corner, Number, Truth
from boxfit.judge.finding import Finding
from boxfit.judge.weights import KILOGRAM_SLACK, SHARE_SLACK

Loads = tuple[float, float]
"""Front axle and rear axle [kg]."""
HEADS = ("front axle [kg]", "rear axle [kg]", "gross [kg]")
TOLD_SLACK = 2 * KILOGRAM_SLACK
"""How much a load in weights.csv may be off [kg]: it was rounded, and so were masses and places."""


class _Mass(BaseModel, frozen=True):
    mass: Annotated[Number, Field(gt=0.0)]
    centre: Corner


class _Box(BaseModel, frozen=True):
    with_modules: _Mass


class _Masses(BaseModel, frozen=True):
    boxes: tuple[_Box, ...]
    cables: tuple[_Mass, ...] = ()


class _Layout(BaseModel, frozen=True):
    target_met: Truth


def judge_as_built(folder: Path, car: Car) -> tuple[Finding, ...]:
    """Loads in weights.csv follow from every part weighed; they break no limit and meet the target.

    The target is asked only where layout.json tells that it is met; nothing is asked of a car not weighed.
    """
    if car.weighed is None:
        return ()
    try:
        masses = _Masses.model_validate(json.loads((folder / "mass.json").read_bytes()))
        layout = _Layout.model_validate(json.loads((folder / "layout.json").read_bytes()))
        with (folder / "weights.csv").open(encoding="utf-8", newline="") as text:
            told = list(csv.DictReader(text))
    except (OSError, ValueError, ValidationError, csv.Error) as error:
        return (Finding("malformed", "weights as built", str(error)),)
    loads = _states(car, car.weighed, masses)
    return (
        *_judge_told(told, loads),
        *_judge_plate(loads[-1], car),
        *(_judge_share(loads[_judged(car)], car) if layout.target_met else ()),
    )


def _states(car: Car, readings: CornerWeights, masses: _Masses) -> list[Loads]:
    """Axle loads stripped, as converted, with those the target has aboard, with all; no state twice."""
    front = readings.front_left + readings.front_right
    rear = readings.rear_left + readings.rear_right
    parts = [*(box.with_modules for box in masses.boxes), *masses.cables]
    pack = [(one.mass, one.centre[0]) for one in parts]
    aboard = car.target.aboard if car.target is not None else ()
    with_target = [one for one in car.carried if one.name in aboard]
    left_behind = [one for one in car.carried if one.name not in aboard]
    found = [(front, rear)]
    found.append(_added(found[-1], [*pack, *_places(car.fitted)], car.wheelbase))
    for people in (with_target, left_behind):
        if people:
            found.append(_added(found[-1], _places(people), car.wheelbase))
    return found


def _places(masses: Sequence[PointMass]) -> list[tuple[float, float]]:
    return [(one.mass, one.at[0]) for one in masses]


def _added(loads: Loads, masses: Sequence[tuple[float, float]], wheelbase: float) -> Loads:
    """Axle loads with masses [kg] at x [mm]: moments about the front axle give the rear one."""
    rear = sum(-mass * x for mass, x in masses) / wheelbase
    return loads[0] + sum(mass for mass, _ in masses) - rear, loads[1] + rear


def _judged(car: Car) -> int:
    """Which state the target judges."""
    aboard = car.target.aboard if car.target is not None else ()
    return 2 if any(one.name in aboard for one in car.carried) else 1


def _judge_told(told: Sequence[Mapping[str, str]], loads: Sequence[Loads]) -> Iterator[Finding]:
    """Every row of weights.csv tells the loads found."""
    if len(told) != len(loads):
        yield Finding(
            "weights", "weights.csv", f"{len(told)} states told, {len(loads)} found", float(len(told))
        )
        return
    for row, (front, rear) in zip(told, loads, strict=True):
        for head, found in zip(HEADS, (front, rear, front + rear), strict=True):
            try:
                off = abs(float(row[head]) - found)
            except (KeyError, TypeError, ValueError):
                off = float("inf")
            if not off <= TOLD_SLACK:
                text = f"{row.get(head)} told, {found:.2f} kg found"
                yield Finding("weights", f"weights.csv, {row.get('state')}, {head}", text, found)


def _judge_plate(loads: Loads, car: Car) -> Iterator[Finding]:
    """With everything on and carried the plate holds."""
    front, rear = loads
    for code, place, load, limit in (
        ("axle-limit", "front axle", front, car.limits.front_axle),
        ("axle-limit", "rear axle", rear, car.limits.rear_axle),
        ("gross-limit", "whole car", front + rear, car.limits.gross),
    ):
        if limit is not None and load > limit + KILOGRAM_SLACK:
            text = f"{load:.2f} kg as built with everything carried, the plate allows {limit:g} kg"
            yield Finding(code, place, text, load)


def _judge_share(loads: Loads, car: Car) -> Iterator[Finding]:
    """The front share as built is within tolerance."""
    if car.target is None:
        return
    share = loads[0] / (loads[0] + loads[1])
    if abs(share - car.target.front_share) > car.target.tolerance + SHARE_SLACK:
        wanted = f"{car.target.front_share:g} give or take {car.target.tolerance:g}"
        yield Finding("target", "as built", f"told met, front share is {share:.4f}, wanted {wanted}", share)
