"""Whether every box of a car and all in it stay put under a rule set: all sums together. [N, mm, MPa]"""

from collections.abc import Iterator
from dataclasses import dataclass

from boxfit.bay import Vector
from boxfit.box.built import BuiltBox
from boxfit.box.fitting import DIRECTIONS, Looks
from boxfit.box.retention.bars import Holding, holding
from boxfit.box.retention.feet import feet_of_box
from boxfit.box.retention.lugs import lugs_of_box
from boxfit.box.retention.masses import Heavy, filled
from boxfit.box.retention.panels import Pressing, uses_of_panels
from boxfit.module import Module
from boxfit.retention.fixings import Fixing, Held, shared
from boxfit.retention.foot import Foot
from boxfit.retention.foot_remedies import uses_of_foot
from boxfit.retention.hold_down import uses_of_hold_down
from boxfit.retention.lug import uses_of_lug
from boxfit.retention.use import Use, worst_of_each
from boxfit.standards.load_factors import LoadFactors, Pull, inertia_load
from boxfit.standards.strengths import STRENGTHS

PULLS: tuple[Looks, ...] = ("front", "rear", "left", "right", "up", "down")
_FACTORS: dict[Looks, Pull] = {
    "front": "front",
    "rear": "rear",
    "left": "side",
    "right": "side",
    "up": "up",
    "down": "down",
}
HELD = "held to the car"
NO_STRENGTH = "strength of its material"


@dataclass(frozen=True)
class Pulled:
    """A box pulled one way: the force [N] on it at its centre of mass, and what each fixing takes of it.

    `held` is None where its fixings leave it free to move.
    """

    pull: Looks
    load: Vector
    held: tuple[Held, ...] | None


@dataclass(frozen=True)
class BoxRetention:
    """One box: its mass and centre, every pull, each check of each item under the pull that uses it most."""

    name: str
    heavy: Heavy
    pulled: tuple[Pulled, ...]
    uses: tuple[Use, ...]


@dataclass(frozen=True)
class Retention:
    """All boxes under one rule set."""

    rules: LoadFactors
    boxes: tuple[BoxRetention, ...]

    @property
    def uses(self) -> tuple[Use, ...]:
        """Every check of every box, the worst first."""
        return worst_of_each(use for box in self.boxes for use in box.uses)


def factor_of(rules: LoadFactors, pull: Looks) -> float:
    """The factor of a pull [g]; left and right are both sideways."""
    return rules.factor(_FACTORS[pull])


def pulled_ways(rules: LoadFactors, mass: float) -> tuple[Vector, ...]:
    """The load [N] on a mass [kg] under every pull that the rules speak of."""
    found = []
    for pull in PULLS:
        factor = factor_of(rules, pull)
        if factor > 0.0:
            force = inertia_load(mass, factor)
            x, y, z = (force * way for way in DIRECTIONS[pull])
            found.append((x, y, z))
    return tuple(found)


def retention_of(rules: LoadFactors, module: Module, built: tuple[BuiltBox, ...]) -> Retention:
    """The sums of every box, modules in it, under every pull the rules speak of."""
    return Retention(rules, tuple(_box(rules, module, one) for one in built))


def _box(rules: LoadFactors, module: Module, built: BuiltBox) -> BoxRetention:
    heavy = filled(built, module)
    without = _without_strength(built)
    feet = () if without else feet_of_box(built)
    fixings = tuple(Fixing(foot.name, foot.at, foot.axis) for foot in feet)
    pulled = []
    for pull in PULLS:
        factor = factor_of(rules, pull)
        if factor > 0.0:
            force = inertia_load(heavy.mass, factor)
            x, y, z = (force * way for way in DIRECTIONS[pull])
            pulled.append(Pulled(pull, (x, y, z), None if without else shared((x, y, z), heavy.at, fixings)))
    if without:
        uses: tuple[Use, ...] = (_cannot_be_shown(built.parts.name, without, pulled),)
    else:
        held = holding(built, module)
        lifted = [use for lug in lugs_of_box(built, heavy.mass) for use in uses_of_lug(lug)]
        stays = (
            use
            for one in pulled
            for use in (*_fixed(built, one, feet), *_inside(rules, module, built, one.pull, held))
        )
        uses = worst_of_each([*stays, *lifted])
    return BoxRetention(built.parts.name, heavy, tuple(pulled), uses)


def _without_strength(built: BuiltBox) -> tuple[str, ...]:
    """Materials of a box that have no strength to count on."""
    parts = built.parts
    used = {parts.tray.material, parts.lid.material, *(shelf.material for shelf in parts.shelves)}
    used |= {strip.material for strip in parts.fittings.strips}
    return tuple(sorted(used - STRENGTHS.keys()))


def _cannot_be_shown(name: str, materials: tuple[str, ...], pulled: list[Pulled]) -> Use:
    worst = max(pulled, key=lambda one: sum(abs(part) for part in one.load))
    load = sum(abs(part) for part in worst.load)
    rule = f"no strength is known for {', '.join(materials)}: retention cannot be shown by sums"
    remedy = (
        "a metal frame round the box that carries modules and mounts, proved on its own; or another metal"
    )
    return Use(name, NO_STRENGTH, worst.pull, load, 0.0, "N", rule, remedy)


def _fixed(built: BuiltBox, pulled: Pulled, feet: tuple[Foot, ...]) -> Iterator[Use]:
    """The box on its feet."""
    if pulled.held is None:
        load = sum(abs(part) for part in pulled.load)
        what = f"its {len(feet)} mounts leave it free to turn" if feet else "no foot stands on a mount"
        remedy = "four mounts under or beside its walls, [[mount]] in the bay's file, well apart"
        yield Use(built.parts.name, HELD, pulled.pull, load, 0.0, "N", f"balance of forces: {what}", remedy)
        return
    for foot, held in zip(feet, pulled.held, strict=True):
        yield from uses_of_foot(foot, pulled.pull, foot.parts(held.force), len(feet))


def _inside(rules: LoadFactors, module: Module, built: BuiltBox, pull: Looks, held: Holding) -> Iterator[Use]:
    """Modules on what holds them in."""
    factor = factor_of(rules, pull)
    yield from uses_of_panels(Pressing(built, module, pull, factor, held.loose))
    if pull == "up":
        for bar in held.bars:
            yield from uses_of_hold_down(bar, pull, inertia_load(bar.mass, factor))
