"""Small random bays in whole millimetres, the same for the same seed. All invented.

Sizes are even, walls are square to the axes or at 45 degrees, and wherever two corners may face each other no
distance is asked: then whatever fits somewhere fits on a grid of 1 mm, and the reference is exact.
"""

from dataclasses import dataclass, replace
from random import Random

from boxfit.bay import Bay, Block, BoxRules, Keepout, Point, Prism
from boxfit.car import Car, CornerWeights, Limits, PointMass, Target, Window
from boxfit.module import Dimension, FaceRoom, Module, Voltage
from boxfit.workshop import FoldShop

FLOOR = 200.0
UPS: tuple[tuple[Dimension, ...], ...] = (("height",), ("height",), ("height", "width"), ("width", "length"))
PLAIN: tuple[Dimension, ...] = ("height",)


@dataclass(frozen=True)
class Small:
    """A car and the module to be counted in it."""

    car: Car
    module: Module


def with_posts(seed: int) -> Small:
    """A rectangular bay with one to three blocks that stay: from the floor, from above or floor to top."""
    random = Random(f"posts {seed}")
    module = _module(random)
    rules = _rules(random, clearance=0.0)
    length, width, height = _extent(random, module, rules)
    outline = ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
    keepouts = tuple(
        _post(random, number, (length, width, height)) for number in range(1, random.randint(2, 4))
    )
    return Small(_car((_bay("bay", outline, height, rules, keepouts),)), module)


def with_outline(seed: int) -> Small:
    """A bay with corners cut off at 45 degrees, a corner left out, or plain walls with a distance to keep."""
    random = Random(f"outline {seed}")
    module = _module(random)
    kind = random.choice(["cut", "cut", "corner", "tunnel", "plain"])
    rules = _rules(random, clearance=float(random.choice([2, 6, 10])) if kind == "plain" else 0.0)
    length, width, height = _extent(random, module, rules)
    outline = _outline(random, kind, length, width)
    return Small(_car((_bay("bay", outline, height, rules),)), module)


def with_two_bays(seed: int) -> Small:
    """A bay in front, one behind, strings inside windows and a front share wanted; boxes weigh nothing."""
    random = Random(f"two bays {seed}")
    module = _module(random, UPS[0])
    rules = _weightless(_rules(random, clearance=0.0), random)
    bays = []
    for name, front in (("front bay", 300.0), ("rear bay", -1300.0)):
        length, width, height = _extent(random, module, rules, most=7.0)
        outline = tuple((front - length + x, y) for x, y in _outline(random, "plain", length, width))
        bays.append(_bay(name, outline, height, rules))
    volts = module.voltage
    low = random.randint(1, 3)
    window = Window("inverter", low * volts.empty, (low + random.randint(0, 2)) * volts.full)
    target = Target(random.choice([0.5, 0.52, 0.54, 0.56]), random.choice([0.005, 0.01, 0.03]), ("driver",))
    gross = random.choice([None, None, 765.0])
    return Small(_car(tuple(bays), (window,), target, Limits(gross=gross)), module)


def _even(random: Random, low: int, high: int) -> float:
    """An even number from `low` to `high`."""
    return 2.0 * random.randint(low // 2, high // 2)


def _module(random: Random, up: tuple[Dimension, ...] | None = None) -> Module:
    chosen = up or random.choice(UPS)
    length, width, height = _even(random, 90, 170), _even(random, 44, 100), _even(random, 40, 80)
    room = FaceRoom(top=random.choice([0.0, 10.0]) if chosen == PLAIN else 0.0)
    volts = Voltage(33.0, 44.0, 50.0)
    spacing = random.choice([0.0, 2.0])
    return Module("Wren", "wren", length, width, height, 21.0, 2.0, 50.0, volts, chosen, spacing, None, room)


def _rules(random: Random, clearance: float) -> BoxRules:
    """A folded or welded way of building, with whole even allowances; no flange is without thickness."""
    flange = random.choice([0.0, 0.0, 12.0, 20.0])
    return BoxRules(
        material="aluminium-5754",
        process=random.choice(["folded", "welded"]),
        shape="rectangular",
        thickness=random.choice([0.0, 2.0]),
        bend_radius=random.choice([0.0, 4.0, 8.0]),
        flange=flange,
        lid_thickness=2.0 if flange else random.choice([0.0, 2.0]),
        clearance=clearance,
        liner=random.choice([0.0, 2.0]),
        gap=random.choice([0.0, 4.0]),
        headroom=random.choice([0.0, 4.0]),
        tiers=random.choice([1, 1, 2]),
        boxes=1,
        fold_shop=FoldShop(weld_bead=6.0 if flange else 0.0),
    )


def _weightless(rules: BoxRules, random: Random) -> BoxRules:
    """The same without sheet, liner and cover plate, so that a box weighs nothing."""
    return replace(
        rules, process="welded", thickness=0.0, bend_radius=0.0, flange=0.0, lid_thickness=0.0, liner=0.0,
        tiers=random.choice([1, 2]), asked=False,
    )  # fmt: skip


def _extent(
    random: Random, module: Module, rules: BoxRules, most: float = 11.0
) -> tuple[float, float, float]:
    """Sides of a bay for about that many modules on every tier, and its height [mm]."""
    least = min(module.length, module.width, module.height)
    plan = sorted((module.length, module.width, module.height))
    area = (plan[0] * plan[1] if len(module.up) > 1 else module.length * module.width) * random.uniform(
        2.5, most / rules.tiers
    )
    lost = 2.0 * (
        rules.thickness + rules.liner + max(rules.gap, rules.bend_radius) + rules.flange + rules.clearance
    )
    length = _even(random, int(least), int(2.2 * area**0.5)) + lost
    width = 2.0 * round(min(max(area / (length - lost), least), 500.0) / 2.0) + lost
    tier = random.choice([module.height, module.height, max(module.width, module.height)])
    height = rules.tiers * (tier + module.room.top + 10.0) + 2.0 * rules.clearance
    return length, width, height + _even(random, 0, 40)


def _outline(random: Random, kind: str, length: float, width: float) -> tuple[Point, ...]:
    """A rectangle with a corner of it at the origin, or what is left of it."""
    most = int(min(length, width) / 2.5)
    cut = _even(random, 10, max(10, most))
    if kind == "corner":
        other = _even(random, 10, max(10, most))
        return ((0.0, 0.0), (length, 0.0), (length, width - cut), (length - other, width - cut),
                (length - other, width), (0.0, width))  # fmt: skip
    if kind == "cut":
        other = _even(random, 10, max(10, most))
        return ((cut, 0.0), (length, 0.0), (length, width - other), (length - other, width), (0.0, width),
                (0.0, cut))  # fmt: skip
    if kind == "tunnel":
        across = _even(random, 8, max(8, most // 2))
        start = _even(random, 2, int(width - across) - 2)
        end = length - cut
        return ((0.0, 0.0), (length, 0.0), (length, start), (end, start), (end, start + across),
                (length, start + across), (length, width), (0.0, width))  # fmt: skip
    return ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))


def _post(random: Random, number: int, bay: tuple[float, float, float]) -> Keepout:
    """A block somewhere in the bay, no distance asked."""
    x, y = (_even(random, 0, int(side) - 20) for side in bay[:2])
    along, across = _even(random, 10, 50), _even(random, 10, 50)
    low, high = random.choice([(0.0, bay[2]), (0.0, _even(random, 10, 60)), (bay[2] - 20.0, bay[2])])
    solid = Block((x, y, FLOOR + low), (x + along, y + across, FLOOR + high))
    return Keepout(f"post {number}", solid, 0.0)


def _bay(
    name: str, outline: tuple[Point, ...], height: float, rules: BoxRules, keepouts: tuple[Keepout, ...] = ()
) -> Bay:
    return Bay(name, Prism(outline, FLOOR, FLOOR + height), 0.0, rules.clearance, rules, keepouts)


def _car(
    bays: tuple[Bay, ...],
    windows: tuple[Window, ...] = (),
    target: Target | None = None,
    limits: Limits | None = None,
) -> Car:
    """A car that asks nothing else; weighed only where a target is wanted."""
    weighed = CornerWeights(140.0, 138.0, 131.0, 129.0) if target else None
    driver = PointMass("driver", 75.0, (-1240.0, -330.0, 480.0))
    return Car(
        "invented", "invented", 2180.0, 1180.0, 1160.0, bays, weighed, (), (driver,), target,
        limits or Limits(), windows,
    )  # fmt: skip
