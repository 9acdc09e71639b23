"""Layouts with stepped boxes and several boxes in a bay, for the tests; all invented, built by hand."""

from collections.abc import Sequence
from dataclasses import replace

from boxfit.bay import Bay, Block, Cylinder, Keepout, Opening, Point, Vector
from boxfit.car import Car, CornerWeights, Limits, PointMass, Target, Window
from boxfit.layout import Alternative, Layout, PlacedBox, PlacedModule, Tier, Weights
from boxfit.module import Module
from boxfit.surface import Outline
from tests.report.samples import HERON, RULES, bay, layout, rectangle, stance

STEPPED = replace(RULES, shape="stepped", boxes=2)
WALL = STEPPED.thickness + STEPPED.liner + STEPPED.gap
LENGTH, WIDTH = HERON.length + HERON.spacing, HERON.width + HERON.spacing
LONG, SHORT = 2.0 * LENGTH - HERON.spacing + 2.0 * WALL, HERON.length + 2.0 * WALL
"""Outside of walls round two modules in line, and round one: 731 and 374."""
Rows = Sequence[Sequence[int]]
"""For every row from right to left, the places from rear to front that hold a module."""


def rows(*places: tuple[int, ...]) -> Rows:
    """Rows of a tier, from right to left."""
    return places


def width(count: float) -> float:
    """Outside [mm] of walls round so many rows: 170, 323, 476."""
    return count * WIDTH - HERON.spacing + 2.0 * WALL


def stepped(corner: Vector, tiers: Sequence[tuple[Outline, Rows]]) -> PlacedBox:
    """A box of Heron modules lengthwise, each tier with its outline and rows counted from `corner`."""
    turned = stance(HERON, "height", "x")
    x, y, z = corner
    height = turned.size[2] + turned.room_high[2]
    stands_on = z + STEPPED.thickness + STEPPED.liner
    built: list[Tier] = []
    for outline, held in tiers:
        modules = tuple(
            PlacedModule(turned, (x + WALL + LENGTH * place, y + WALL + WIDTH * row, stands_on))
            for row, places in enumerate(held)
            for place in places
        )
        built.append(Tier(stands_on, height, modules, tuple((x + a, y + b) for a, b in outline)))
        stands_on += height + STEPPED.headroom + STEPPED.thickness
    across, along = zip(*built[-1].outline, strict=True)
    top = built[-1].stands_on + height + STEPPED.headroom + STEPPED.lid_thickness
    return PlacedBox((min(across), min(along), z), (max(across), max(along), top), tuple(built))


def l_shape(corner: Vector) -> PlacedBox:
    """Four modules: a long row on the right, two short ones beside its rear."""
    outline = (
        (0.0, 0.0),
        (LONG, 0.0),
        (LONG, width(1)),
        (SHORT, width(1)),
        (SHORT, width(3)),
        (0.0, width(3)),
    )
    return stepped(corner, ((outline, rows((0, 1), (0,), (0,))),))


def u_shape(corner: Vector) -> PlacedBox:
    """Five modules: open to the front, one row wide between the arms."""
    left = width(3) - width(1)
    outline = (
        (0.0, 0.0), (LONG, 0.0), (LONG, width(1)), (SHORT, width(1)),
        (SHORT, left), (LONG, left), (LONG, width(3)), (0.0, width(3)),
    )  # fmt: skip
    return stepped(corner, ((outline, rows((0, 1), (0,), (0, 1))),))


def step_floor(corner: Vector) -> PlacedBox:
    """Two modules below at the rear, six above that reach further forward and to the left."""
    low, high = rectangle((0.0, 0.0), (SHORT, width(2))), rectangle((0.0, 0.0), (LONG, width(3)))
    return stepped(corner, ((low, rows((0,), (0,))), (high, rows((0, 1), (0, 1), (0, 1)))))


def l_below(corner: Vector) -> PlacedBox:
    """An L of four below a full tier of six."""
    low = l_shape((0.0, 0.0, 0.0)).outlines[0]
    high = rectangle((0.0, 0.0), (LONG, width(3)))
    return stepped(corner, ((low, rows((0, 1), (0,), (0,))), (high, rows((0, 1), (0, 1), (0, 1)))))


def plain(corner: Vector, places: Rows) -> PlacedBox:
    """A plain box of one tier."""
    far: Point = (LONG if max(map(len, places)) > 1 else SHORT, width(len(places)))
    box = stepped(corner, ((rectangle((0.0, 0.0), far), places),))
    return replace(box, tiers=tuple(replace(tier, outline=()) for tier in box.tiers))


def car_with(front: Bay, rear: Bay) -> Car:
    """A weighed car with two bays."""
    return Car(
        "Garganey 700", "garganey-700", 2300.0, 1200.0, 1200.0, (front, rear),
        weighed=CornerWeights(140.0, 138.5, 129.0, 131.5, 430.0),
        carried=(PointMass("driver", 75.0, (-1300.0, -330.0, 480.0)),),
        target=Target(0.5, 0.02, ("driver",)),
        limits=Limits(520.0, 560.0, 1020.0),
        windows=(Window("inverter", 80.0, 170.0),),
    )  # fmt: skip


WEIGHTS = Weights(116.0, 31.0, 402.1, 398.4, 800.5, 0.502, 0.499, (-1144.8, 1.6, 431.0))


def notched() -> tuple[Car, Module, Layout]:
    """An L round a servo in front, and at the back a box with a step in its floor over an axle tube."""
    front = bay(
        "front bay", rectangle((-600.0, -330.0), (270.0, 330.0)), (250.0, 520.0), box=STEPPED,
        keepouts=(
            Keepout("brake servo", Cylinder((40.0, 150.0, 390.0), (270.0, 150.0, 390.0), 190.0), 13.0),
            Keepout("bonnet latch", Block((180.0, -60.0, 470.0), (270.0, 60.0, 520.0)), 13.0, True),
        ),
        opening=Opening("up"),
    )  # fmt: skip
    rear = bay(
        "rear bay", rectangle((-2900.0, -330.0), (-2010.0, 330.0)), (240.0, 640.0), box=STEPPED,
        keepouts=(
            Keepout("axle tube", Cylinder((-2280.0, -330.0, 290.0), (-2280.0, 330.0, 290.0), 90.0), 13.0),
            Keepout("spring hanger", Block((-2860.0, 140.0, 240.0), (-2700.0, 330.0, 370.0)), 13.0),
        ),
        opening=Opening("up", rectangle((-2890.0, -320.0), (-2020.0, 320.0))),
    )  # fmt: skip
    car = car_with(front, rear)
    boxes = {
        "front bay": (l_shape((-540.0, -290.0, 265.0)),),
        "rear bay": (step_floor((-2850.0, -260.0, 255.0)),),
    }
    found = layout(car, HERON, boxes, WEIGHTS)
    fewer = Alternative(
        "fewest box corners", "2 modules fewer (4.4 kWh less), every box with 4 corners, front share 0.507"
        " instead of 0.502, lowest centre of mass 12 mm higher", replace(found, count=10),
    )  # fmt: skip
    lower = Alternative("plain boxes only", "3 modules fewer", replace(found, count=9))
    return car, HERON, replace(found, alternatives=(fewer, lower))


def paired() -> tuple[Car, Module, Layout]:
    """A U round a column in front, and at the back an L with a plain box in its corner."""
    front = bay(
        "front bay", rectangle((-600.0, -330.0), (270.0, 330.0)), (250.0, 520.0), box=STEPPED,
        keepouts=(
            Keepout("steering column", Cylinder((60.0, -52.0, 250.0), (60.0, -52.0, 520.0), 50.0), 13.0),
        ),
        opening=Opening("up"),
    )  # fmt: skip
    rear = bay(
        "rear bay", rectangle((-2900.0, -330.0), (-2010.0, 330.0)), (240.0, 640.0), box=STEPPED,
        opening=Opening("up"),
    )  # fmt: skip
    car = car_with(front, rear)
    boxes = {
        "front bay": (u_shape((-540.0, -290.0, 265.0)),),
        "rear bay": (l_shape((-2850.0, -290.0, 255.0)), plain((-2420.0, -65.0, 255.0), rows((0,), (0,)))),
    }
    return car, HERON, layout(car, HERON, boxes, WEIGHTS)


def cornered() -> tuple[Car, Module, Layout]:
    """In front an L below a full tier; at the back two plain boxes one before the other."""
    front = bay(
        "front bay", rectangle((-600.0, -330.0), (270.0, 330.0)), (250.0, 640.0), box=STEPPED,
        keepouts=(Keepout("wheel arch", Block((-120.0, -70.0, 250.0), (270.0, 330.0, 385.0)), 13.0),),
        opening=Opening("up"),
    )  # fmt: skip
    rear = bay(
        "rear bay", rectangle((-2900.0, -330.0), (-2010.0, 330.0)), (240.0, 640.0), box=STEPPED,
        opening=Opening("up"),
    )  # fmt: skip
    car = car_with(front, rear)
    boxes = {
        "front bay": (l_below((-540.0, -290.0, 265.0)),),
        "rear bay": (
            plain((-2860.0, -260.0, 255.0), rows((0,), (0,), (0,))),
            plain((-2430.0, -260.0, 255.0), rows((0,), (0,))),
        ),
    }
    return car, HERON, layout(car, HERON, boxes, WEIGHTS)


SAMPLES = {"notched": notched, "paired": paired, "cornered": cornered}
