"""A module file into the module believed."""

from pathlib import Path

from boxfit.files.checked import checked
from boxfit.files.problems import InputError, Problem
from boxfit.files.said_module import SaidModule
from boxfit.files.shown import plain
from boxfit.files.toml import read_table
from boxfit.module import Current, FaceRoom, Module, Voltage


def read_module(path: Path) -> Module:
    """The module in the TOML file at `path`: [mm], [kg], [kWh], [Ah], [V], [A].

    Raises InputError with everything that is wrong in the file.
    """
    file = plain(path.name) or plain(str(path))
    problems: list[Problem] = []
    said = checked(SaidModule, read_table(path, file), file, problems)
    if said is None:
        raise InputError(problems)
    return Module(
        name=said.name,
        stem=path.stem,
        length=said.size.length,
        width=said.size.width,
        height=said.size.height,
        mass=said.mass,
        energy=said.energy,
        capacity=said.capacity,
        voltage=Voltage(said.voltage.empty, said.voltage.nominal, said.voltage.full),
        up=tuple(said.up),
        spacing=said.spacing,
        current=Current(said.current.continuous, said.current.peak) if said.current else None,
        room=FaceRoom(**said.room.model_dump()),
        room_shared=said.room_shared,
        held_at=(said.held.at[0], said.held.at[1]),
        held_width=said.held.width,
        terminals=said.terminals or "",
        price=said.price,
    )
