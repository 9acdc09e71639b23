"""What is missing or odd in a folder of modules: not wrong, but worth a second look.

Every finding starts with its file. What is usual is common practice, no source (standards/usual_modules.py).
"""

from collections.abc import Callable, Hashable, Iterator, Sequence

from boxfit.electrics.terminals import terminal_face
from boxfit.module import DIMENSIONS, FACES, Module
from boxfit.report.columns import tenths
from boxfit.standards.usual_modules import (
    CONTINUOUS,
    DENSITY,
    EMPTY,
    ENERGY_AGREES,
    FULL,
    MOST_SPACING,
    SPECIFIC_ENERGY,
    TERMINAL_ROOM,
    cell_counts,
)

_USUAL = "common practice"


def litres(module: Module) -> float:
    """What the module's body takes up [litres]."""
    return module.length * module.width * module.height / 1e6


def density(module: Module) -> float:
    """Mass over volume [kg per litre]."""
    return module.mass / litres(module)


def specific_energy(module: Module) -> float:
    """Energy over mass [Wh per kg]."""
    return 1000.0 * module.energy / module.mass


def odd_modules(modules: Sequence[Module]) -> tuple[str, ...]:
    """Everything missing or odd, by file; what lies between several files stands with the later one."""
    lines = [(module.stem, line) for module in modules for line in _odd(module)]
    lines += [*_doubles(modules), *_unpriced(modules)]
    return tuple(f"{stem}.toml: {line}" for stem, line in sorted(lines, key=lambda each: each[0]))


def _odd(module: Module) -> Iterator[str]:
    for key, found, usual in (
        ("mass", density(module), DENSITY),
        ("energy", specific_energy(module), SPECIFIC_ENERGY),
    ):
        if not usual.holds(found):
            yield f"{key}: makes {found:.3g} {usual.unit}; usual are {usual} ({_USUAL})"
    stated = module.capacity * module.voltage.nominal / 1000.0
    if abs(stated - module.energy) > ENERGY_AGREES * stated:
        yield (
            f"energy: {module.energy:g} kWh, but capacity {module.capacity:g} Ah times nominal "
            f"{module.voltage.nominal:g} V is {stated:.3g}"
        )
    yield from _volts(module)
    yield from _current(module)
    yield from _faces(module)


def _volts(module: Module) -> Iterator[str]:
    """Volts that no lithium cell has: by their ratios where these tell which is off, else by the count."""
    volts = module.voltage
    if cell_counts(volts.empty, volts.nominal, volts.full):
        return
    off = [
        f"voltage.{key}: {found / volts.nominal:.2f} of nominal; lithium cells have "
        f"{usual.low:.2f} to {usual.high:.2f} ({_USUAL})"
        for key, found, usual in (("empty", volts.empty, EMPTY), ("full", volts.full, FULL))
        if not usual.holds(found / volts.nominal)
    ]
    trio = f"{volts.empty:g}, {volts.nominal:g} and {volts.full:g} V"
    yield from off or [f"voltage: no whole number of lithium cells has {trio} ({_USUAL})"]


def _current(module: Module) -> Iterator[str]:
    if module.current is None:
        yield "current: missing; what the strings may give stays unknown"
        return
    rate = module.current.continuous / module.capacity
    if not CONTINUOUS.holds(rate):
        yield f"current.continuous: makes {rate:.3g} {CONTINUOUS.unit}; usual are {CONTINUOUS} ({_USUAL})"


def _faces(module: Module) -> Iterator[str]:
    """Room at the faces, where it is pressed down, and how far the next one stands."""
    face = terminal_face(module)
    room = getattr(module.room, face)
    if room < TERMINAL_ROOM:
        words = "where terminals are taken to be" if not module.terminals else "where the terminals are"
        usual = f"usual are {TERMINAL_ROOM:g} at least ({_USUAL})"
        yield f"room.{face}: {tenths(room)} mm {words}; {usual}"
    if face in module.held_at:
        words = "bars would press over the terminals"
        yield f'held.at: {words} at "{face}"; ask its maker where it may be pressed'
    for dimension, pair in zip(DIMENSIONS, FACES, strict=True):
        size = getattr(module, dimension)
        for each in pair:
            if getattr(module.room, each) > size:
                kept = tenths(getattr(module.room, each))
                yield f"room.{each}: {kept} mm is more than the {dimension} {tenths(size)} itself"
    if module.spacing > MOST_SPACING:
        yield f"spacing: {tenths(module.spacing)} mm; usual are {MOST_SPACING:g} at most ({_USUAL})"


def _doubles(modules: Sequence[Module]) -> Iterator[tuple[str, str]]:
    """Modules that bear another's name, and those that are another but for the name."""
    for module, first in _again(modules, lambda one: _bare(one.name)):
        yield module.stem, f'name: "{module.name}" is the name in {first.stem}.toml too'
    for module, first in _again(modules, _body):
        yield module.stem, f"size, mass and energy are those of {first.stem}.toml; is it the same module?"


def _again(modules: Sequence[Module], key: Callable[[Module], Hashable]) -> Iterator[tuple[Module, Module]]:
    """Each module whose key an earlier one had, with that one."""
    first: dict[Hashable, Module] = {}
    for module in modules:
        earlier = first.setdefault(key(module), module)
        if earlier is not module:
            yield module, earlier


def _bare(name: str) -> str:
    """Capitals, blanks and signs make no other name."""
    return "".join(sign for sign in name if sign.isalnum()).casefold() or name


def _body(module: Module) -> Hashable:
    sides = sorted((module.length, module.width, module.height))
    return (*(round(side, 1) for side in sides), round(module.mass, 2), round(module.energy, 3))


def _unpriced(modules: Sequence[Module]) -> Iterator[tuple[str, str]]:
    """Modules without a price among those with one: costs could not be compared."""
    if any(module.price is not None for module in modules):
        for module in modules:
            if module.price is None:
                yield module.stem, "price: missing, while others have one; its cost stays unknown"
