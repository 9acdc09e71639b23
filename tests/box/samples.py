"""Boxes to build and weigh, alone and as a layout of a whole car. Everything in them is invented."""

from dataclasses import replace

from hypothesis import strategies as st

from boxfit.bay import Bay, BoxRules, Prism, Vector
from boxfit.box_shape import rectangle, rectangles
from boxfit.car import Car, CornerWeights, PointMass
from boxfit.layout import BayLayout, Layout, PlacedBox, PlacedModule, Tier, Weights
from boxfit.lid_details import gasket_too_wide
from boxfit.module import FaceRoom, Module, Voltage, stances
from boxfit.surface import Outline
from boxfit.workshop import FoldShop

RULES = BoxRules(
    material="aluminium-5754",
    process="folded",
    shape="rectangular",
    thickness=2.5,
    bend_radius=2.5,
    flange=22.0,
    lid_thickness=2.0,
    clearance=10.0,
    liner=3.0,
    gap=4.0,
    headroom=5.0,
    tiers=2,
    boxes=1,
)
NO_BEAD = FoldShop(weld_bead=0.0)
"""For counts by hand: walls welded to a floor leave all of its corner free."""
HERON = Module(
    name="Heron 44",
    stem="heron-44",
    length=355.0,
    width=151.0,
    height=108.0,
    mass=11.6,
    energy=2.2,
    capacity=50.0,
    voltage=Voltage(33.0, 44.0, 50.4),
    up=("height",),
    spacing=2.0,
    room=FaceRoom(top=30.0),
)
LOW = (-313.7, -200.1, 260.0)


def box_around(
    low: Vector, plan: tuple[float, float], heights: tuple[float, ...], rules: BoxRules
) -> PlacedBox:
    """A box without modules, of outside `plan` [mm], its tiers of the given heights [mm]."""
    tiers: list[Tier] = []
    level = low[2] + rules.thickness + rules.liner
    for height in heights:
        tiers.append(Tier(level, height, ()))
        level += height + rules.headroom + rules.thickness
    top = tiers[-1].stands_on + tiers[-1].height + rules.headroom + rules.lid_thickness
    return PlacedBox(low, (low[0] + plan[0], low[1] + plan[1], top), tuple(tiers))


def bay_with(rules: BoxRules, top: float = 900.0) -> Bay:
    """A bay large enough for any of the boxes here."""
    outline = ((1500.0, -1500.0), (1500.0, 1500.0), (-1500.0, 1500.0), (-1500.0, -1500.0))
    return Bay("front bay", Prism(outline, 200.0, top), 3.0, 3.0 + rules.clearance, rules)


def height_and_levels(box: PlacedBox) -> tuple[float, tuple[float, ...]]:
    """Outside height, and what the tiers stand on above the outside of the floor [mm]."""
    return box.high[2] - box.low[2], tuple(tier.stands_on - box.low[2] for tier in box.tiers)


PLANS: dict[str, tuple[tuple[int, int], ...]] = {
    "L": ((0, 0), (3, 0), (3, 1), (1, 1), (1, 3), (0, 3)),
    "U": ((0, 0), (3, 0), (3, 3), (2, 3), (2, 1), (1, 1), (1, 3), (0, 3)),
    "T": ((1, 0), (2, 0), (2, 2), (3, 2), (3, 3), (0, 3), (0, 2), (1, 2)),
    "Z": ((0, 0), (2, 0), (2, 1), (3, 1), (3, 3), (1, 3), (1, 2), (0, 2)),
}
"""Corners of stepped plans, as places along lines across and along."""
LINES = ((0.0, 190.0, 400.5, 620.0), (0.0, 160.0, 285.0, 470.0))


def plan_by(
    name: str, lines: tuple[tuple[float, ...], tuple[float, ...]] = LINES, low: Vector = LOW
) -> Outline:
    """One of the plans between lines [mm] counted from the low corner."""
    return tuple((low[0] + lines[0][x], low[1] + lines[1][y]) for x, y in PLANS[name])


def stepped_box(outlines: tuple[Outline, ...], heights: tuple[float, ...], rules: BoxRules) -> PlacedBox:
    """A box without modules whose tiers have these outlines and heights [mm], lowest first."""
    xs, ys = ([corner[axis] for outline in outlines for corner in outline] for axis in (0, 1))
    low = (min(xs), min(ys), LOW[2])
    box = box_around(low, (max(xs) - low[0], max(ys) - low[1]), heights, rules)
    pairs = zip(box.tiers, outlines, strict=True)
    return replace(box, tiers=tuple(replace(tier, outline=outline) for tier, outline in pairs))


def filled_box(low: Vector, columns: int, tiers: int, module: Module = HERON) -> PlacedBox:
    """A box of modules in one row along x, as many tiers of them, its allowances by RULES."""
    stance = next(one for one in stances(module) if one.length_along == "y")
    wall = RULES.thickness + RULES.liner + RULES.gap
    pitch = stance.size[0] + module.spacing
    plan = (2 * wall + columns * pitch - module.spacing, 2 * wall + stance.size[1])
    empty = box_around(low, plan, (stance.size[2] + stance.room_high[2],) * tiers, RULES)
    filled = tuple(
        Tier(
            tier.stands_on,
            tier.height,
            tuple(
                PlacedModule(stance, (low[0] + wall + column * pitch, low[1] + wall, tier.stands_on))
                for column in range(columns)
            ),
        )
        for tier in empty.tiers
    )
    return PlacedBox(empty.low, empty.high, filled)


def car_and_layout() -> tuple[Car, Layout]:
    """Two bays with a box each, six and four modules; no room for a cover plate in the rear."""
    front = bay_with(RULES)
    outline = ((-2000.0, -400.0), (-2000.0, 400.0), (-2500.0, 400.0), (-2500.0, -400.0))
    rear = Bay("rear bay", Prism(outline, 300.0, 620.0), 4.0, 14.0, RULES)
    car = Car(
        "Dunlin 850",
        "dunlin-850",
        2180.0,
        1180.0,
        1160.0,
        (front, rear),
        CornerWeights(128.0, 126.5, 109.0, 111.5, 420.0),
        (PointMass("drive motor", 54.0, (-310.0, 0.0, 360.0)),),
        (PointMass("driver", 75.0, (-1240.0, -330.0, 480.0)),),
    )
    bays = (
        BayLayout("front bay", (filled_box((-300.0, -184.5, 280.0), 3, 2),)),
        BayLayout("rear bay", (filled_box((-2480.0, -184.5, 320.0), 2, 2),)),
    )
    return car, Layout(car.name, HERON.name, 10, 5, 2, 22.0, 10, True, True, bays, Weights(116.0, 17.0))


@st.composite
def workshops(draw: st.DrawFn) -> BoxRules:
    """Rules that can be built by."""
    tenths = st.integers
    radius = draw(tenths(0, 50)) / 10.0
    flange = draw(st.sampled_from([0.0, radius + 0.1, 12.0, 20.0, 22.0, 25.0, 33.0]))
    rules = BoxRules(
        material=draw(st.sampled_from(["aluminium-5754", "steel-s235", "petg"])),
        process=draw(st.sampled_from(["folded", "folded", "welded", "printed"])),
        shape="rectangular",
        thickness=draw(tenths(5, 50)) / 10.0,
        bend_radius=radius,
        flange=flange,
        lid_thickness=draw(tenths(5, 40)) / 10.0,
        clearance=10.0,
        liner=draw(st.sampled_from([0.0, 1.0, 3.0, 6.0])),
        gap=draw(st.sampled_from([0.0, 1.0, 4.0])),
        headroom=draw(st.sampled_from([0.0, 0.5, 5.0, 20.0])),
        tiers=3,
        boxes=1,
        cover_material=draw(st.sampled_from(["", "stainless-1.4301"])),
    )
    width = min(draw(st.sampled_from([0.0, 0.0, 4.0, 8.0])), gasket_too_wide(rules))
    return replace(rules, gasket_width=width, gasket_thickness=draw(st.sampled_from([0.0, 3.0, 6.0])))


def tier_heights() -> st.SearchStrategy[tuple[float, ...]]:
    """Of one to three tiers [mm]."""
    return st.lists(st.integers(600, 2500).map(lambda tenths: tenths / 10.0), min_size=1, max_size=3).map(
        tuple
    )


@st.composite
def boxes(draw: st.DrawFn) -> tuple[BoxRules, PlacedBox]:
    """Rules that can be built by, and a plain box by them."""
    rules = draw(workshops())
    plan = (draw(st.integers(600, 9000)) / 10.0, draw(st.integers(600, 9000)) / 10.0)
    return rules, box_around(LOW, plan, draw(tier_heights()), rules)


@st.composite
def outlines(draw: st.DrawFn) -> Outline:
    """A stepped plan, turned any quarter; no arm or gap narrower than 70 mm."""
    lines = []
    for _ in range(2):
        steps = [draw(st.integers(700, 3000)) / 10.0 for _ in range(3)]
        lines.append((0.0, steps[0], steps[0] + steps[1], sum(steps)))
    outline = plan_by(draw(st.sampled_from(sorted(PLANS))), (lines[0], lines[1]))
    for _ in range(draw(st.integers(0, 3))):
        outline = tuple((-y, x) for x, y in outline)
    return outline


@st.composite
def stepped_boxes(draw: st.DrawFn) -> tuple[BoxRules, PlacedBox]:
    """Rules and a stepped box by them, its lowest tier perhaps a rectangle within the plan of the others."""
    rules, heights, top = replace(draw(workshops()), shape="stepped"), draw(tier_heights()), draw(outlines())
    bottom = top
    if len(heights) > 1 and draw(st.booleans()):
        (x, y), (a, b) = draw(st.sampled_from(rectangles(top)))
        inset = st.sampled_from([0.0, 0.0, 5.0, 7.5])
        low, high = (x + draw(inset), y + draw(inset)), (a - draw(inset), b - draw(inset))
        bottom = rectangle(low, high)
    return rules, stepped_box((bottom, *[top] * (len(heights) - 1)), heights, rules)
