"""What was built before, found again: which results a car has, and what its boxes weigh. [kg, mm]"""

import json
from pathlib import Path

from pydantic import BaseModel, ConfigDict, Field

from boxfit.bay import Vector
from boxfit.files.problems import InputError, Problem
from boxfit.files.shown import plain
from boxfit.weight.pack import Pack
from boxfit.weight.scales import Item

LAYOUT, MASSES = "layout.json", "mass.json"


class _Whole(BaseModel):
    model_config = ConfigDict(frozen=True)

    mass: float = Field(gt=0.0, allow_inf_nan=False)
    centre: Vector


class _Box(BaseModel):
    model_config = ConfigDict(frozen=True)

    name: str
    with_modules: _Whole


class _Masses(BaseModel):
    model_config = ConfigDict(frozen=True)

    boxes: list[_Box] = Field(min_length=1)
    cables: list[_Whole] = []


def results_of(folder: Path) -> tuple[str, ...]:
    """The modules a car has a layout for, by the names of the folders in its folder of results."""
    try:
        return tuple(sorted(path.parent.name for path in folder.glob(f"*/{LAYOUT}")))
    except (OSError, ValueError):
        return ()


def only_module(folder: Path) -> str:
    """The one module a car has results for.

    Raises InputError where there is none, or more than one; those are then told.
    """
    found = results_of(folder)
    if len(found) == 1:
        return found[0]
    where = plain(str(folder))
    if found:
        rule = f"must be named: {where} holds results for {', '.join(found)}"
        remedy = f"name the one that was built, for example: --module {found[0]}"
    else:
        rule = f"must be named: no results of this car lie in {where}"
        remedy = "name it with --module, and the folder of the results with --out if it is another"
    raise InputError([Problem("--module", "", rule, None, remedy)])


def written_data(path: Path) -> dict[str, object] | None:
    """The table in a JSON file of the results; None where there is no such file.

    Raises ValueError where it cannot be read as one.
    """
    if not path.is_file():
        return None
    try:
        data = json.loads(path.read_bytes())
    except (OSError, RecursionError) as error:
        raise ValueError(f"cannot be read: {error}") from None
    if not isinstance(data, dict):
        raise ValueError("is no table")
    return data


def pack_from_data(data: dict[str, object]) -> Pack:
    """The pack as mass.json has it. Raises ValueError where the data is not of that kind."""
    found = _Masses.model_validate(data)
    items = [Item(box.name, box.with_modules.mass, box.with_modules.centre) for box in found.boxes]
    if found.cables:
        items.append(_together("link cables", found.cables))
    return Pack(tuple(items), every_part=True)


def _together(name: str, parts: list[_Whole]) -> Item:
    """Several parts as one item."""
    mass = sum(part.mass for part in parts)
    x, y, z = (sum(part.mass * part.centre[axis] for part in parts) / mass for axis in range(3))
    return Item(name, mass, (x, y, z))
