"""What presses on floors, walls, shelves and lid of a built box, pull by pull. [N, mm, MPa]"""

from collections.abc import Iterator
from dataclasses import dataclass

from boxfit.box.fitting import Looks
from boxfit.box.outside.wall import Wall, walls_of
from boxfit.box.retention.masses import lid_mass, middle_of
from boxfit.box.whole import BuiltBox
from boxfit.layout import PlacedModule
from boxfit.module import Module
from boxfit.retention.panel import Panel, use_of_panel, use_of_screws, use_of_seam
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


def _walls(one: Pressing) -> Iterator[Use]:
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
        yield use_of_panel(Panel(name, size, thick, metal), "the modules behind it", one.pull, pressure)
        # the safe side: as if floor and flange took nothing of it
        yield use_of_seam(f"{name}, each corner", one.pull, load / 2.0, (size[1], thick), metal)


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


def _floors(one: Pressing) -> Iterator[Use]:
    """Floor and shelves from wall to wall, each under its own tier; each shelf's ledge by its weld."""
    parts, box = one.built.parts, one.built.box
    tray = parts.tray
    metal = STRENGTHS[tray.material]
    floor = tray.bands[0]
    plates = [(f"{parts.name} floor", floor.low, floor.high, tray.thickness, metal)]
    for number, shelf in enumerate(parts.shelves, start=1):
        thick = shelf.plate.top - shelf.plate.bottom
        name = f"{parts.name} shelf {number}"
        plates.append((name, shelf.plate.low, shelf.plate.high, thick, STRENGTHS[shelf.material]))
    for tier, (name, low, high, thick, own) in zip(box.tiers, plates, strict=False):
        size, load = (high[0] - low[0], high[1] - low[1]), one.load(len(tier.modules))
        panel = Panel(name, size, thick, own)
        yield use_of_panel(panel, "the modules on it", one.pull, load / (size[0] * size[1]))
        if "shelf" in name:
            seam = (2.0 * (size[0] + size[1]), tray.thickness)
            yield use_of_seam(name.replace("shelf", "ledge of shelf"), one.pull, load, seam, metal)


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
