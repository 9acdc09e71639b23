"""What presses on floors, walls, shelves and lid of a built box, pull by pull. [N, mm, MPa]"""

from collections.abc import Iterator
from dataclasses import dataclass

from boxfit.box.built import BuiltBox
from boxfit.box.fitting import Looks
from boxfit.box.outside.wall import Wall, walls_of
from boxfit.box.retention.barred import barred_floor, barred_wall
from boxfit.box.retention.masses import lid_mass, middle_of
from boxfit.layout import PlacedModule
from boxfit.module import Module
from boxfit.retention.panel import Panel, use_of_panel, use_of_screws, use_of_seam
from boxfit.retention.stiffened import uses_of_stiffened
from boxfit.retention.use import Use
from boxfit.standards.bolts import tension_resistance
from boxfit.standards.load_factors import inertia_load
from boxfit.standards.strengths import STRENGTHS

LID_SCREW = 5.0


@dataclass(frozen=True)
class Pressing:
    """A built box under a pull of so many g, its modules, and those of them that no hold-down holds."""

    built: BuiltBox
    module: Module
    pull: Looks
    factor: float
    loose: tuple[PlacedModule, ...]

    def load(self, modules: int) -> float:
        """The force of so many modules [N]."""
        return inertia_load(modules * self.module.mass, self.factor)


def uses_of_panels(one: Pressing) -> Iterator[Use]:
    """Walls and their corners when pulled sideways, floor and shelves when down, the lid when up."""
    if one.pull == "down":
        yield from _floors(one)
    elif one.pull == "up":
        yield from _lid(one)
    else:
        yield from _walls(one)


@dataclass(frozen=True)
class PressedWall:
    """A wall as a panel under an even pressure [MPa] of a load [N] in all."""

    wall: Wall
    panel: Panel
    pressure: float
    load: float


def pressed_walls(one: Pressing) -> Iterator[PressedWall]:
    """Every wall that looks the way of the pull, pressed by its modules evenly up to their tops.

    Friction on the floor and what hold-downs bear are left out, on the safe side.
    """
    parts, number = one.built.parts, 0
    walls = [wall for wall in walls_of(parts) if wall.looks == one.pull]
    pressed: dict[Wall, list[PlacedModule]] = {wall: [] for wall in walls}
    for placed in one.built.box.modules:
        if wall := _before(placed, walls):
            pressed[wall].append(placed)
    metal, thick = STRENGTHS[parts.tray.material], parts.tray.thickness
    for wall, modules in pressed.items():
        if not modules:
            continue
        number += 1
        name = f"{parts.name} {one.pull} wall" + (f" {number}" if number > 1 else "")
        size = (wall.corners[1] - wall.corners[0], wall.levels[1] - wall.levels[0])
        high = max(placed.high[2] for placed in modules) - max(wall.levels[0], one.built.box.low[2])
        load = one.load(len(modules))
        pressure = load / (size[0] * min(high, size[1]))
        yield PressedWall(wall, Panel(name, size, thick, metal), pressure, load)


def _walls(one: Pressing) -> Iterator[Use]:
    """Walls by themselves or with their stiffening bars, and their corners."""
    what = "the modules behind it"
    for pressed in pressed_walls(one):
        panel = pressed.panel
        barred = barred_wall(one.built.parts, pressed.wall, panel)
        if barred:
            yield from uses_of_stiffened(barred, what, one.pull, pressed.pressure)
        else:
            yield use_of_panel(panel, what, one.pull, pressed.pressure)
        # the safe side: as if floor and flange took nothing of it
        seam = (panel.size[1], panel.thickness)
        yield use_of_seam(f"{panel.name}, each corner", one.pull, pressed.load / 2.0, seam, panel.metal)


def _before(placed: PlacedModule, walls: list[Wall]) -> Wall | None:
    """The nearest wall in front of a module, at its level and across its middle."""
    middle = middle_of(placed)
    found = [
        wall
        for wall in walls
        if wall.levels[0] <= middle[2] <= wall.levels[1]
        and wall.corners[0] <= middle[1 - wall.axis] <= wall.corners[1]
        and (wall.plane - middle[wall.axis]) * wall.sign > 0.0
    ]
    return min(found, key=lambda wall: (wall.plane - middle[wall.axis]) * wall.sign, default=None)


def pressed_floor(one: Pressing) -> tuple[Panel, float]:
    """The floor as a panel, and the pressure [MPa] of the lowest tier on it."""
    parts, tray = one.built.parts, one.built.parts.tray
    low, high = tray.bands[0].low, tray.bands[0].high
    size = (high[0] - low[0], high[1] - low[1])
    panel = Panel(f"{parts.name} floor", size, tray.thickness, STRENGTHS[tray.material])
    return panel, one.load(len(one.built.box.tiers[0].modules)) / (size[0] * size[1])


def _floors(one: Pressing) -> Iterator[Use]:
    """Floor and shelves from wall to wall, each under its own tier; each shelf's ledge by its weld."""
    parts, what = one.built.parts, "the modules on it"
    floor, pressure = pressed_floor(one)
    barred = barred_floor(parts, floor)
    if barred:
        yield from uses_of_stiffened(barred, what, one.pull, pressure)
    else:
        yield use_of_panel(floor, what, one.pull, pressure)
    tiers = one.built.box.tiers[1:]
    for number, (tier, shelf) in enumerate(zip(tiers, parts.shelves, strict=False), start=1):
        low, high, name = shelf.plate.low, shelf.plate.high, f"{parts.name} shelf {number}"
        size, load = (high[0] - low[0], high[1] - low[1]), one.load(len(tier.modules))
        panel = Panel(name, size, shelf.plate.top - shelf.plate.bottom, STRENGTHS[shelf.material])
        yield use_of_panel(panel, what, one.pull, load / (size[0] * size[1]))
        seam = (2.0 * (size[0] + size[1]), parts.tray.thickness)
        ledge = name.replace("shelf", "ledge of shelf")
        yield use_of_seam(ledge, one.pull, load, seam, floor.metal)


def _lid(one: Pressing) -> Iterator[Use]:
    """The lid under itself and the cover plate, and under what no hold-down keeps from being thrown at it."""
    parts = one.built.parts
    under = parts.tray.bands[-1]
    size = (under.high[0] - under.low[0], under.high[1] - under.low[1])
    load = inertia_load(lid_mass(one.built), one.factor) + one.load(len(one.loose))
    thick = parts.lid.plate.top - parts.lid.plate.bottom
    panel = Panel(f"{parts.name} lid", size, thick, STRENGTHS[parts.lid.material])
    many = "s" if len(one.loose) > 1 else ""
    thrown = f" and {len(one.loose)} module{many} not held down" if one.loose else ""
    yield use_of_panel(panel, f"its own weight{thrown}", one.pull, load / (size[0] * size[1]))
    each = tension_resistance(LID_SCREW, "8.8")
    yield use_of_screws(panel.name, one.pull, load, (len(parts.lid.holes), each))
