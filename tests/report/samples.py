"""Cars, modules and layouts for the tests of this part; all invented, built by hand, judged by nobody."""

from collections.abc import Mapping
from dataclasses import replace

from boxfit.bay import Bay, Block, BoxRules, Cylinder, Keepout, Opening, Point, Prism, Vector
from boxfit.car import Car, CornerWeights, Limits, PointMass, Target, Window
from boxfit.layout import BayLayout, Layout, PlacedBox, PlacedModule, Tier, Weights
from boxfit.module import FaceRoom, Module, Stance, Voltage, stances

RULES = BoxRules("aluminium-5754", "folded", "rectangular", 2.5, 2.5, 22.0, 2.0, 10.0, 3.0, 4.0, 5.0, 2, 1)
HERON = Module(
    "Heron 44", "heron-44", 355.0, 151.0, 108.0, 11.6, 2.2, 50.0, Voltage(33.0, 44.0, 50.4), ("height",), 2.0,
    room=FaceRoom(top=30.0),
)  # fmt: skip
WREN = Module(
    "Wren 7", "wren-7", 148.0, 26.5, 91.0, 0.9, 0.15, 37.0, Voltage(3.0, 3.7, 4.2), ("height", "width"), 1.0
)


def stance(module: Module, up: str, along: str) -> Stance:
    """The first stance that stands on `up` with its length along an axis."""
    return next(s for s in stances(module) if (s.up, s.length_along) == (up, along))


def box(module: Module, corner: Vector, grid: tuple[int, int, int], turn: tuple[str, str]) -> PlacedBox:
    """A box on `corner`, modules in a grid of columns, rows and tiers, the allowances as in RULES."""
    turned = stance(module, *turn)
    size, wall = turned.size, RULES.thickness + RULES.liner + RULES.gap
    tiers = []
    stands_on = corner[2] + RULES.thickness + RULES.liner
    height = size[2] + turned.room_high[2]
    for _ in range(grid[2]):
        places = [
            PlacedModule(
                turned,
                (
                    corner[0] + wall + i * (size[0] + module.spacing),
                    corner[1] + wall + j * (size[1] + module.spacing),
                    stands_on,
                ),
            )
            for i in range(grid[0])
            for j in range(grid[1])
        ]
        tiers.append(Tier(stands_on, height, tuple(places)))
        stands_on += height + RULES.headroom + RULES.thickness
    last = tiers[-1]
    high = (
        last.modules[-1].high[0] + wall,
        last.modules[-1].high[1] + wall,
        last.stands_on + height + RULES.headroom + RULES.lid_thickness,
    )
    return PlacedBox(corner, high, tuple(tiers))


def bay(name: str, outline: tuple[Point, ...], levels: tuple[float, float], **others: object) -> Bay:
    """A prism bay that keeps 13 mm from its surfaces."""
    plain = Bay(name, Prism(outline, *levels), tolerance=3.0, distance=13.0, box=RULES)
    return replace(plain, **others)  # type: ignore[arg-type]


def rectangle(low: Point, high: Point) -> tuple[Point, ...]:
    """Four corners, counter-clockwise."""
    return (low, (high[0], low[1]), high, (low[0], high[1]))


def layout(car: Car, module: Module, boxes: Mapping[str, tuple[PlacedBox, ...]], weights: Weights) -> Layout:
    """A layout with the given boxes, as strings of three where that goes up, otherwise one string."""
    bays = tuple(BayLayout(b.name, boxes.get(b.name, ())) for b in car.bays)
    count = sum(len(b.modules) for found in boxes.values() for b in found)
    series = 3 if count % 3 == 0 else count
    return Layout(
        car.name,
        module.name,
        count,
        series,
        count // series,
        count * module.energy,
        count,
        True,
        True,
        bays,
        weights,
    )


def roadster() -> tuple[Car, Module, Layout]:
    """Two bays, keep-outs of both kinds, everything known."""
    front = bay(
        "front bay",
        ((-420.0, -340.0), (250.0, -400.0), (250.0, 400.0), (-420.0, 340.0)),
        (260.0, 640.0),
        keepouts=(
            Keepout("steering column", Cylinder((200.0, 310.0, 300.0), (-420.0, 330.0, 520.0), 60.0), 18.0),
            Keepout("bonnet latch", Block((180.0, -60.0, 560.0), (250.0, 60.0, 640.0)), 13.0, True),
        ),
        opening=Opening("up", rectangle((-400.0, -330.0), (240.0, 330.0))),
    )
    rear = bay(
        "rear bay",
        rectangle((-2550.0, -480.0), (-1990.0, 480.0)),
        (330.0, 700.0),
        keepouts=(Keepout("left wheel arch", Block((-2330.0, 380.0, 330.0), (-2030.0, 480.0, 560.0)), 13.0),),
        opening=Opening("up"),
    )
    car = Car(
        "Dunlin 850", "dunlin-850", 2180.0, 1180.0, 1160.0, (front, rear),
        weighed=CornerWeights(128.0, 126.5, 109.0, 111.5, 420.0),
        fitted=(PointMass("drive motor, adaptor plate and mount", 54.0, (-310.0, 0.0, 360.0)),),
        carried=(PointMass("driver", 75.0, (-1240.0, -330.0, 480.0)),
                 PointMass("passenger", 75.0, (-1240.0, 330.0, 480.0))),
        target=Target(0.50, 0.02, ("driver",)),
        limits=Limits(480.0, 520.0, 950.0),
        windows=(Window("inverter", 80.0, 160.0), Window("charger", 80.0, 170.0)),
    )  # fmt: skip
    boxes = {
        "front bay": (box(HERON, (-380.0, -245.0, 275.0), (1, 3, 2), ("height", "x")),),
        "rear bay": (box(HERON, (-2530.0, -390.0, 345.0), (3, 1, 1), ("height", "y")),),
    }
    weights = Weights(104.4, 21.5, 371.4, 359.0, 730.4, 0.5085, 0.492, (-1071.5, -9.3, 428.0))
    return car, HERON, layout(car, HERON, boxes, weights)


def van() -> tuple[Car, Module, Layout]:
    """Three bays, one empty, two boxes in one bay, the height of its mass unknown."""
    engine = bay(
        "engine bay", rectangle((-300.0, -450.0), (500.0, 450.0)), (300.0, 820.0), opening=Opening("front")
    )
    floor = bay(
        "under the load floor",
        rectangle((-2100.0, -560.0), (-700.0, 560.0)),
        (240.0, 480.0),
        keepouts=(
            Keepout(
                "prop shaft tunnel and its heat shield",
                Block((-2100.0, -90.0, 240.0), (-700.0, 90.0, 480.0)),
                28.0,
            ),
            Keepout(
                "hand brake cable",
                Cylinder((-2100.0, 120.0, 260.0), (-700.0, 120.0, 260.0), 14.0),
                13.0,
                True,
            ),
        ),
        opening=Opening("down", rectangle((-2080.0, -540.0), (-720.0, 540.0))),
    )
    tail = bay(
        "tail", rectangle((-3150.0, -300.0), (-2900.0, 300.0)), (400.0, 600.0), opening=Opening("rear")
    )
    car = Car(
        "Knot 1500", "knot-1500", 2400.0, 1370.0, 1390.0, (engine, floor, tail),
        weighed=CornerWeights(300.0, 310.0, 280.0, 270.0),
        carried=(PointMass("driver", 75.0, (-300.0, -400.0, 900.0)),
                 PointMass("load", 400.0, (-1900.0, 0.0, 800.0))),
        target=Target(0.52, 0.01, ("driver",)),
        limits=Limits(rear_axle=1000.0),
    )  # fmt: skip
    boxes = {
        "engine bay": (box(HERON, (-230.0, -250.0, 320.0), (2, 1, 1), ("height", "y")),),
        "under the load floor": (
            box(HERON, (-1560.0, 150.0, 258.0), (2, 2, 1), ("height", "x")),
            box(HERON, (-1560.0, -490.0, 258.0), (2, 2, 1), ("height", "x")),
        ),
    }
    weights = Weights(116.0, 34.0, 690.0, 695.0, 1385.0, 0.498, 0.505, (-1204.3, 6.1, None))
    return car, HERON, replace(
        layout(car, HERON, boxes, weights), bound=12, proven=False, target_met=False,
        notes=("nearest to the target: front share 0.498, wanted 0.52 give or take 0.01",),
    )  # fmt: skip


def many() -> tuple[Car, Module, Layout]:
    """Ninety-six small modules in one bay, in two tiers; the car was not weighed."""
    boot = bay("boot", rectangle((-2600.0, -450.0), (-1900.0, 450.0)), (300.0, 620.0), opening=Opening("up"))
    car = Car("Redshank", "redshank", 2200.0, 1200.0, 1200.0, (boot,))
    boxes = {"boot": (box(WREN, (-2580.0, -230.0, 315.0), (4, 12, 2), ("height", "x")),)}
    return car, WREN, layout(car, WREN, boxes, Weights(86.4, 19.0))


def tiny() -> tuple[Car, Module, Layout]:
    """One small module standing on its side in one small bay full of keep-outs with long names."""
    nook = bay(
        "nook behind the passenger's seat",
        rectangle((-1500.0, 300.0), (-1320.0, 370.0)),
        (300.0, 420.0),
        keepouts=tuple(
            Keepout(f"seat rail bolt and captive nut number {k}", Block((-1500.0 + 20 * k, 300.0, 300.0),
                    (-1490.0 + 20 * k, 310.0, 310.0)), 13.0)
            for k in range(8)
        ),
        opening=Opening("left"),
    )  # fmt: skip
    car = Car(
        "Stint", "stint", 1800.0, 1000.0, 1000.0, (nook,),
        weighed=CornerWeights(100.0, 100.0, 100.0, 100.0, 400.0),
        carried=(PointMass("driver", 75.0, (-1200.0, 0.0, 500.0)),),
    )  # fmt: skip
    boxes = {
        "nook behind the passenger's seat": (box(WREN, (-1495.0, 315.0, 310.0), (1, 1, 1), ("height", "x")),)
    }
    return (
        car,
        WREN,
        layout(car, WREN, boxes, Weights(0.9, 0.7, 225.0, 251.6, 476.6, 0.472, 0.5, (-950.4, 0.2, 412.0))),
    )


def crossed() -> tuple[Car, Module, Layout]:
    """The roadster with the front's upper tier laid across the lower one: numbers cannot be joined."""
    car, module, plain = roadster()
    front = plain.bays[0].boxes[0]
    turned = stance(module, "height", "y")
    upper = tuple(
        PlacedModule(turned, (-370.0 + 153.0 * k, -190.0, front.tiers[1].stands_on)) for k in range(2)
    )
    tiers = (front.tiers[0], replace(front.tiers[1], modules=upper))
    bays = (replace(plain.bays[0], boxes=(replace(front, tiers=tiers),)), plain.bays[1])
    return car, module, replace(plain, bays=bays, count=8, series=8, parallel=1, energy=17.6)


SAMPLES = {"roadster": roadster, "van": van, "many": many, "tiny": tiny, "crossed": crossed}
