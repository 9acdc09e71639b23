"""A car, a module and a clear layout worked out by hand, to be spoiled one rule at a time. All invented.

One box of two tiers with two modules each, the smallest such box the rules allow:
along x 2.5 sheet + 3 liner + 5 gap (bend 8 less liner 3) + 100 + 2 spacing + 100 + 5 + 3 + 2.5 = 223,
along y 10.5 + 60 + 10.5 = 81, upwards 5.5 + (40 + 10 room) + 5 headroom + 2.5 shelf + 50 + 5 + 2 lid = 120.
"""

from typing import Any

from boxfit.bay import Bay, Block, BoxRules, Cylinder, Keepout, Opening, Prism
from boxfit.car import Car, CornerWeights, Limits, PointMass, Target, Window
from boxfit.module import FaceRoom, Module, Voltage

Data = dict[str, Any]

RULES = BoxRules(
    material="aluminium-5754",
    process="folded",
    shape="rectangular",
    thickness=2.5,
    bend_radius=8.0,
    flange=22.0,
    lid_thickness=2.0,
    clearance=10.0,
    liner=3.0,
    gap=4.0,
    headroom=5.0,
    tiers=2,
    boxes=2,
)
ROOM = Prism(((0.0, -400.0), (0.0, 400.0), (-600.0, 400.0), (-600.0, -400.0)), 200.0, 700.0)
BAY = Bay(
    name="front bay",
    room=ROOM,
    tolerance=3.0,
    distance=13.0,
    box=RULES,
    keepouts=(
        Keepout("beam", Block((-500.0, -350.0, 200.0), (-480.0, 350.0, 300.0)), 13.0),
        Keepout("steering column", Cylinder((-50.0, 300.0, 250.0), (-550.0, 310.0, 600.0), 60.0), 18.0),
    ),
    opening=Opening("up", ((-5.0, -300.0), (-5.0, 300.0), (-595.0, 300.0), (-595.0, -300.0))),
)
REAR_BAY = Bay(
    name="rear bay",
    room=Prism(((-1500.0, -300.0), (-1500.0, 300.0), (-2100.0, 300.0), (-2100.0, -300.0)), 200.0, 700.0),
    tolerance=3.0,
    distance=13.0,
    box=RULES,
)
WEIGHED = CornerWeights(200.0, 200.0, 200.0, 200.0, 450.0)
CAR = Car(
    name="Dunlin 850",
    folder="dunlin-850",
    wheelbase=2000.0,
    track_front=1200.0,
    track_rear=1160.0,
    bays=(BAY, REAR_BAY),
    weighed=WEIGHED,
    fitted=(PointMass("motor", 50.0, (-200.0, 0.0, 300.0)),),
    carried=(
        PointMass("driver", 80.0, (-1000.0, -300.0, 500.0)),
        PointMass("luggage", 30.0, (-1800.0, 0.0, 600.0)),
    ),
    target=Target(0.53, 0.02, ("driver",)),
    limits=Limits(520.0, 500.0, 1000.0),
    windows=(Window("inverter", 40.0, 56.0),),
)
MODULE = Module(
    name="Wren 12",
    stem="wren-12",
    length=100.0,
    width=60.0,
    height=40.0,
    mass=5.0,
    energy=1.1,
    capacity=90.0,
    voltage=Voltage(10.0, 12.0, 14.0),
    up=("height",),
    spacing=2.0,
    room=FaceRoom(top=10.0),
)
BOXES_MASS = 1.2


def placed(x: float, y: float, z: float) -> Data:
    """A module lying along x with its low corner here."""
    return {
        "low": [x, y, z],
        "high": [x + 100.0, y + 60.0, z + 40.0],
        "up": "height",
        "length_along": "x",
        "faces": {"x": "front", "y": "left", "z": "top"},
    }


def box(x: float, y: float, z: float) -> Data:
    """The box of the head of this file with its low corner here."""
    return {
        "outside": {"low": [x, y, z], "high": [x + 223.0, y + 81.0, z + 120.0]},
        "corners": 4,
        "modules": [placed(x + along, y + 10.5, z + up) for up in (5.5, 63.0) for along in (10.5, 112.5)],
        "tiers": [{"stands_on": z + up, "height": 50.0, "count": 2} for up in (5.5, 63.0)],
    }


def weights() -> Data:
    """The car with driver, box and modules by superposition; the box's own mass in its middle.

    Box and modules are 21.2 kg at (-288.5, -59.5, 310 or, the modules, 304.25); rear axle
    400 + 50 x 0.1 + 80 x 0.5 + 21.2 x 0.14425.
    """
    gross = 800.0 + 50.0 + 80.0 + 20.0 + BOXES_MASS
    rear = 400.0 + 5.0 + 40.0 + 21.2 * 288.5 / 2000.0
    left = 400.0 + 25.0 + 80.0 * (0.5 - 300.0 * (0.5 / 1200.0 + 0.5 / 1160.0))
    left += 21.2 * (0.5 - 59.5 * (0.85575 / 1200.0 + 0.14425 / 1160.0))
    sideways = 80.0 * -300.0 + 21.2 * -59.5
    upwards = 800.0 * 450.0 + 50.0 * 300.0 + 80.0 * 500.0 + 20.0 * 304.25 + BOXES_MASS * 310.0
    return {
        "front_axle": gross - rear,
        "rear_axle": rear,
        "gross": gross,
        "front_share": 1.0 - rear / gross,
        "left_share": left / gross,
        "centre_of_mass": [-2000.0 * rear / gross, sideways / gross, upwards / gross],
        "modules": 20.0,
        "boxes": BOXES_MASS,
    }


def layout() -> Data:
    """A layout that breaks no rule."""
    return {
        "car": "Dunlin 850",
        "module": "Wren 12",
        "count": 4,
        "series": 4,
        "parallel": 1,
        "energy": 4.4,
        "bound": 8,
        "proven": False,
        "target_met": True,
        "bays": [{"name": "front bay", "boxes": [box(-400.0, -100.0, 250.0)]}],
        "weights": weights(),
        "alternatives": [],
    }
