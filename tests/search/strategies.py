"""Small cars and modules for the whole search. All invented."""

from dataclasses import replace

from hypothesis import strategies as st

from boxfit.bay import Bay, Block, Cylinder, Keepout, Opening, Point, Prism, Solid, Surface, Way
from boxfit.car import Car, CornerWeights, Limits, PointMass, Target, Window
from boxfit.module import FaceRoom, Module, Voltage
from tests.box.samples import RULES

RULES_TRIED = (
    RULES,
    replace(RULES, process="welded", bend_radius=0.0, liner=0.0, gap=0.0, clearance=0.0, flange=0.0),
    replace(RULES, bend_radius=8.0, tiers=1),
    replace(RULES, tiers=3, headroom=0.0, clearance=5.0),
    replace(RULES, boxes=2, flange=5.0, clearance=2.0, tiers=1),
    replace(RULES, shape="stepped", flange=5.0),
    replace(RULES, shape="stepped", boxes=3, tiers=2),
)
WAYS: tuple[Way, ...] = ("up", "down", "front", "rear", "left", "right")

rooms = st.sampled_from([0.0, 0.0, 0.0, 0.0, 12.5, 30.0])


@st.composite
def modules(draw: st.DrawFn) -> Module:
    """Modules of a hand's size, with rooms on some faces and one to three ways up."""
    return Module(
        name="Wren 12",
        stem="wren-12",
        length=draw(st.sampled_from([150.0, 182.5, 220.0])),
        width=draw(st.sampled_from([90.0, 110.0, 150.0])),
        height=draw(st.sampled_from([70.0, 95.5])),
        mass=draw(st.sampled_from([5.0, 12.0])),
        energy=1.1,
        capacity=50.0,
        voltage=Voltage(18.0, 22.0, 25.2),
        up=draw(st.sampled_from([("height",), ("height",), ("height", "width"), ("width", "length")])),
        spacing=draw(st.sampled_from([0.0, 2.0])),
        room=FaceRoom(
            front=draw(rooms), back=draw(rooms), left=draw(rooms), right=draw(rooms), top=draw(rooms)
        ),
        room_shared=draw(st.booleans()),
    )


def outline_from(front: float, length: float, half: float, shape: str) -> tuple[Point, ...]:
    """A plan of a bay from its front end back: plain, narrowing, or with a corner cut out."""
    rear = front - length
    if shape == "narrowing":
        return ((rear, -0.8 * half), (front, -half), (front, half), (rear, 0.7 * half))
    if shape == "cut out":
        middle = front - 0.4 * length
        return (
            (rear, -half), (front, -half), (front, 0.3 * half), (middle, 0.3 * half), (middle, half),
            (rear, half),
        )  # fmt: skip
    return ((rear, -half), (front, -half), (front, half), (rear, half))


@st.composite
def keepouts(draw: st.DrawFn, front: float, half: float, tolerance: float) -> Keepout:
    """A block or a leaning bar somewhere in the bay."""
    x = front - draw(st.integers(0, 400))
    y = float(draw(st.integers(-int(half), int(half))))
    z = draw(st.sampled_from([210.0, 300.0, 420.0]))
    solid: Block | Cylinder = Block((x - 40.0, y - 25.0, z), (x, y + 25.0, z + 60.0))
    if draw(st.booleans()):
        end = draw(st.sampled_from([(-300.0, 20.0, 150.0), (0.0, 120.0, 80.0), (-120.0, -90.0, 0.0)]))
        solid = Cylinder((x, y, z), (x + end[0], y + end[1], z + end[2]), 40.0)
    return Keepout("pipe", solid, tolerance + draw(st.sampled_from([10.0, 15.0])))


@st.composite
def openings(draw: st.DrawFn, bay_front: float, length: float, half: float) -> Opening:
    """Any way, at times through a hole a little smaller than the side."""
    way = draw(st.sampled_from(WAYS))
    if draw(st.booleans()):
        return Opening(way)
    cut = draw(st.sampled_from([5.0, 40.0]))
    along, across, up = (
        (bay_front - length + cut, bay_front - cut), (-half + cut, half - cut), (200.0 + 3.0, 520.0 - cut)
    )  # fmt: skip
    (a, c), (b, d) = {"u": (along, across), "d": (along, across), "f": (across, up)}.get(
        way[0], (across, up) if way == "rear" else (along, up)
    )
    return Opening(way, ((a, b), (c, b), (c, d), (a, d)))


@st.composite
def bays(draw: st.DrawFn, name: str, front: float) -> Bay:
    """A bay 300 to 500 long and 240 high."""
    tolerance = draw(st.sampled_from([0.0, 3.0]))
    rules = draw(st.sampled_from(RULES_TRIED))
    length, half = float(draw(st.integers(300, 480))), float(draw(st.integers(150, 260)))
    shape = draw(st.sampled_from(["plain", "plain", "narrowing", "cut out"]))
    top = draw(st.sampled_from([330.0, 430.0, 520.0]))
    return Bay(
        name,
        Prism(outline_from(front, length, half, shape), 200.0, top),
        tolerance,
        tolerance + rules.clearance,
        rules,
        tuple(draw(st.lists(keepouts(front, half, tolerance), max_size=2))),
        draw(openings(front, length, half)) if draw(st.booleans()) else None,
    )


def prism_of(bay: Bay) -> Prism:
    """The bay's room, which is a prism."""
    assert isinstance(bay.room, Prism)
    return bay.room


@st.composite
def cars(draw: st.DrawFn) -> Car:
    """One or two bays; target, limits, windows and readings at times left out."""
    found = [draw(bays("front bay", 250.0))]
    if draw(st.booleans()):
        found.append(draw(bays("rear bay", -1900.0)))
    weighed = CornerWeights(128.0, 126.5, 109.0, 111.5, draw(st.sampled_from([None, 420.0])))
    windows = (Window("inverter", 30.0, 160.0), Window("charger", 50.0, 110.0))
    share = draw(st.sampled_from([0.45, 0.5, 0.53, 0.58]))
    return Car(
        "Dunlin 850",
        "dunlin-850",
        2180.0,
        1180.0,
        1160.0,
        tuple(found),
        weighed if draw(st.integers(0, 5)) else None,
        (PointMass("drive motor", 54.0, (-310.0, 0.0, 360.0)),),
        (PointMass("driver", 75.0, (-1240.0, -330.0, 480.0)),),
        Target(share, draw(st.sampled_from([0.01, 0.04])), ("driver",)) if draw(st.booleans()) else None,
        draw(st.sampled_from([Limits(), Limits(gross=690.0), Limits(340.0, 330.0, 720.0)])),
        draw(st.sampled_from([(), windows[:1], windows])),
        draw(st.booleans()),
    )


def mirrored(car: Car) -> Car:
    """The car with left and right exchanged."""
    weighed = car.weighed and replace(
        car.weighed,
        front_left=car.weighed.front_right,
        front_right=car.weighed.front_left,
        rear_left=car.weighed.rear_right,
        rear_right=car.weighed.rear_left,
    )
    return replace(
        car,
        bays=tuple(_mirrored_bay(bay) for bay in car.bays),
        weighed=weighed,
        fitted=tuple(replace(one, at=(one.at[0], -one.at[1], one.at[2])) for one in car.fitted),
        carried=tuple(replace(one, at=(one.at[0], -one.at[1], one.at[2])) for one in car.carried),
    )


def mirrored_module(module: Module) -> Module:
    """The module with its left and right faces exchanged."""
    room = module.room
    return replace(module, room=replace(room, left=room.right, right=room.left))


def _flipped(outline: tuple[Point, ...]) -> tuple[Point, ...]:
    return tuple((a, -b) for a, b in outline[::-1])


def _mirrored_bay(bay: Bay) -> Bay:
    return replace(
        bay,
        room=replace(prism_of(bay), outline=_flipped(bay.room.outline)),
        keepouts=tuple(replace(one, solid=_mirrored_solid(one.solid)) for one in bay.keepouts),
        opening=bay.opening and _mirrored_opening(bay.opening),
    )


def _mirrored_solid(solid: Solid) -> Solid:
    assert not isinstance(solid, Surface)
    if isinstance(solid, Cylinder):
        (x, y, z), (a, b, c) = solid.start, solid.end
        return replace(solid, start=(x, -y, z), end=(a, -b, c))
    (x, y, z), (a, b, c) = solid.low, solid.high
    return Block((x, -b, z), (a, -y, c))


def _mirrored_opening(opening: Opening) -> Opening:
    swapped: dict[Way, Way] = {"left": "right", "right": "left"}
    outline = opening.outline
    if outline is not None and opening.way in ("front", "rear"):
        outline = tuple((-a, b) for a, b in outline[::-1])
    elif outline is not None and opening.way in ("up", "down"):
        outline = _flipped(outline)
    return Opening(swapped.get(opening.way, opening.way), outline)


def quarter_turned(car: Car) -> Car:
    """The car's bays turned about z so that what looked forward looks left; readings and demands left out."""
    turned = tuple(
        replace(
            bay,
            room=replace(prism_of(bay), outline=_turned(bay.room.outline)),
            keepouts=tuple(replace(one, solid=_turned_solid(one.solid)) for one in bay.keepouts),
            opening=bay.opening and _turned_opening(bay.opening),
        )
        for bay in car.bays
    )
    return replace(car, bays=turned)


def _turned(outline: tuple[Point, ...]) -> tuple[Point, ...]:
    return tuple((-y, x) for x, y in outline)


def _turned_solid(solid: Solid) -> Solid:
    assert not isinstance(solid, Surface)
    if isinstance(solid, Cylinder):
        (x, y, z), (a, b, c) = solid.start, solid.end
        return replace(solid, start=(-y, x, z), end=(-b, a, c))
    (x, y, z), (a, b, c) = solid.low, solid.high
    return Block((-b, x, z), (-y, a, c))


def _turned_opening(opening: Opening) -> Opening:
    following: dict[Way, Way] = {"front": "left", "left": "rear", "rear": "right", "right": "front"}
    outline = opening.outline
    if outline is not None and opening.way in ("front", "rear"):
        outline = tuple((-a, b) for a, b in outline[::-1])
    elif outline is not None and opening.way in ("up", "down"):
        outline = _turned(outline)
    return Opening(following.get(opening.way, opening.way), outline)
