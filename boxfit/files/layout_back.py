"""layout.json back into a layout, for those who hold the car and the module. [mm], [kg], [kWh]"""

from dataclasses import replace
from typing import Literal

from pydantic import BaseModel, ConfigDict

from boxfit.bay import Point, Vector
from boxfit.car import Car, PointMass
from boxfit.layout import Alternative, BayLayout, Layout, PlacedBox, PlacedModule, Tier, Weights
from boxfit.module import Axis, Dimension, Module, stances


class _Written(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class _Module(_Written):
    low: Vector
    high: Vector
    up: Dimension
    length_along: Axis
    faces: dict[Literal["x", "y", "z"], str]


class _Corners(_Written):
    low: Vector
    high: Vector


class _Tier(_Written):
    stands_on: float
    height: float
    count: int
    outline: tuple[Point, ...] = ()


class _Box(_Written):
    outside: _Corners
    corners: int
    modules: list[_Module]
    tiers: list[_Tier]


class _Bay(_Written):
    name: str
    boxes: list[_Box]


class _Weights(_Written):
    front_axle: float | None
    rear_axle: float | None
    gross: float | None
    front_share: float | None
    left_share: float | None
    centre_of_mass: tuple[float, float, float | None] | None
    modules: float
    boxes: float


class _Kept(_Written):
    name: str
    mass: float
    at: Vector


class _Figures(_Written):
    count: int
    series: int
    parallel: int
    energy: float
    bound: int
    proven: bool
    target_met: bool
    bays: list[_Bay]
    weights: _Weights
    reserve: tuple[_Kept, ...] = ()


class _Alternative(_Figures):
    what: str
    difference: str


class _Layout(_Figures):
    car: str
    module: str
    alternatives: list[_Alternative]
    notes: list[str]


def layout_from_data(data: dict[str, object], car: Car, module: Module) -> Layout:
    """The layout that `layout_as_data` wrote, figures as rounded there.

    Raises ValueError where the data is no layout of this module in this car.
    """
    written = _Layout.model_validate(data)
    if (written.car, written.module) != (car.name, module.name):
        raise ValueError(f"a layout of {written.module} in {written.car}, not of {module.name} in {car.name}")
    best = _figures(written, car, module)
    others = (
        Alternative(one.what, one.difference, _figures(one, car, module)) for one in written.alternatives
    )
    return replace(best, notes=tuple(written.notes), alternatives=tuple(others))


def _figures(written: _Figures, car: Car, module: Module) -> Layout:
    return Layout(
        car=car.name,
        module=module.name,
        count=written.count,
        series=written.series,
        parallel=written.parallel,
        energy=written.energy,
        bound=written.bound,
        proven=written.proven,
        target_met=written.target_met,
        bays=tuple(
            BayLayout(bay.name, tuple(_box(box, module) for box in bay.boxes)) for bay in written.bays
        ),
        weights=Weights(**written.weights.model_dump()),
        reserve=tuple(PointMass(one.name, one.mass, one.at) for one in written.reserve),
    )


def _box(box: _Box, module: Module) -> PlacedBox:
    if sum(tier.count for tier in box.tiers) != len(box.modules):
        raise ValueError(f"the tiers count other than the {len(box.modules)} modules listed")
    placed = [_placed(each, module) for each in box.modules]
    tiers: list[Tier] = []
    for tier in box.tiers:
        tiers.append(Tier(tier.stands_on, tier.height, tuple(placed[: tier.count]), tier.outline))
        placed = placed[tier.count :]
    found = PlacedBox(box.outside.low, box.outside.high, tuple(tiers))
    if found.corners != box.corners:
        raise ValueError(f"{box.corners} corners told, the outlines have {found.corners}")
    return found


def _placed(written: _Module, module: Module) -> PlacedModule:
    for stance in stances(module):
        faces = dict(zip("xyz", stance.faces, strict=True))
        if (stance.up, stance.length_along, faces) == (written.up, written.length_along, written.faces):
            return PlacedModule(stance, written.low)
    raise ValueError(
        f"{module.name} cannot stand with {written.up} up and its length along {written.length_along}"
    )
