"""Clear layouts of stepped boxes and of several boxes, worked out by hand. All invented.

Lengths as in `samples`: sheet 2.5 and liner 3, then 5 to a module on the tray floor and 4 or 5 on a shelf;
modules 100 x 60 x 40 with 10 of room above, 2 apart; one tier is 5.5 + 50 + 5 headroom + 2 lid = 62.5 high.
"""

from dataclasses import replace

from boxfit.bay import Bay, Block, Keepout, Opening, Point, Prism
from boxfit.car import Car, Window
from tests.judge.samples import CAR, RULES, Data, placed

Outline = tuple[Point, ...]

X, Y, Z = -700.0, -200.0, 250.0
"""Where the low corner of the first module of every sample would be, were there no floor under it."""
STEPPED = replace(RULES, shape="stepped")
L_PLAN: Outline = (
    (-10.5, -10.5), (212.5, -10.5), (212.5, 70.5), (110.5, 70.5), (110.5, 132.5), (-10.5, 132.5),
)  # fmt: skip
U_PLAN: Outline = (
    (-10.5, -10.5), (518.5, -10.5), (518.5, 132.5), (397.5, 132.5), (397.5, 70.5), (110.5, 70.5),
    (110.5, 132.5), (-10.5, 132.5),
)  # fmt: skip


def moved(outline: Outline, x: float = X, y: float = Y) -> Outline:
    """An outline elsewhere."""
    return tuple((a + x, b + y) for a, b in outline)


def plain(x: float, y: float, ahead: float, left: float) -> Outline:
    """A rectangle."""
    return ((x, y), (ahead, y), (ahead, left), (x, left))


def grown_l(by: float) -> Outline:
    """The L plan with every side further out, in its place."""
    low, ahead, inner, arm, left = -10.5 - by, 212.5 + by, 110.5 + by, 70.5 + by, 132.5 + by
    return moved(((low, low), (ahead, low), (ahead, arm), (inner, arm), (inner, left), (low, left)))


def a_box(outlines: tuple[Outline, ...], corners: int, tiers: tuple[Data, ...]) -> Data:
    """A box of such outlines round tiers that tell where they stand and their modules' plan places."""
    xs, ys = zip(*outlines[-1], strict=True)
    modules = [placed(X + x, Y + y, tier["stands_on"]) for tier in tiers for x, y in tier["modules"]]
    told = [
        {"stands_on": tier["stands_on"], "height": 50.0, "count": len(tier["modules"])}
        | {"outline": [*map(list, one)]}
        for tier, one in zip(tiers, outlines, strict=True)
    ]
    return {
        "outside": {
            "low": [min(xs), min(ys), Z],
            "high": [max(xs), max(ys), tiers[-1]["stands_on"] + 57.0],
        },
        "corners": corners,
        "modules": modules,
        "tiers": told,
    }


def a_layout(boxes: list[Data], series: int) -> Data:
    """A layout of boxes in the front bay of a car that was not weighed."""
    count = sum(len(box["modules"]) for box in boxes)
    return {
        "car": "Dunlin 850", "module": "Wren 12", "count": count, "series": series,
        "parallel": count // series, "energy": count * 1.1, "bound": count, "proven": True,
        "target_met": True, "bays": [{"name": "front bay", "boxes": boxes}],
        "weights": {"modules": 5.0 * count, "boxes": 1.5 * len(boxes)}, "alternatives": [],
    }  # fmt: skip


def a_car(room: Prism, opening: Opening, keepouts: tuple[Keepout, ...] = ()) -> Car:
    """A car of one bay, judged by bay and pack alone."""
    bay = Bay("front bay", room, 3.0, 13.0, STEPPED, keepouts, opening)
    return replace(CAR, bays=(bay,), weighed=None, target=None, windows=(Window("inverter", 20.0, 56.0),))


def l_layout() -> Data:
    """One tier in L: two modules along x, a third beside the first."""
    tier = {"stands_on": Z + 5.5, "modules": [(0.0, 0.0), (102.0, 0.0), (0.0, 62.0)]}
    return a_layout([a_box((moved(L_PLAN),), 6, (tier,))], 3)


POST = Keepout("post", Block((X + 123.5, Y + 83.5, 200.0), (X + 140.0, Y + 100.0, Z + 45.0)), 13.0)
"""In the notch of the L, 13 from both walls and 13 under the flange: no rectangular box stands here."""
L_CAR = a_car(Prism(grown_l(35.0), Z - 13.0, Z + 75.5), Opening("up", grown_l(25.0)))
"""An L-shaped bay as tight as it can be: flange 22, clearance 10, tolerance 3; a hole 3 round the flange."""
WIDE = Prism(plain(-1000.0, -500.0, 0.0, 500.0), Z - 13.0, 700.0)
POST_CAR = a_car(WIDE, Opening("up"), (POST,))

BELOW, ABOVE = moved(plain(-10.5, -10.5, 110.5, 70.5)), moved(plain(-10.5, -10.5, 211.5, 70.5))


def two_tiers() -> Data:
    """One module below, two above: the front one over a step 2.5 thick whose top is 63 above the floor."""
    lower = {"stands_on": Z + 5.5, "modules": [(0.0, 0.0)]}
    upper = {"stands_on": Z + 63.0, "modules": [(0.0, 0.0), (102.0, 0.0)]}
    return a_layout([a_box((BELOW, ABOVE), 8, (lower, upper))], 3)


TUNNEL = Keepout("tunnel", Block((X + 123.5, Y - 60.0, Z - 13.0), (X + 300.0, Y + 90.0, Z + 47.5)), 13.0)
"""13 ahead of the wall below and 13 under the step."""
TUNNEL_CAR = a_car(WIDE, Opening("up"), (TUNNEL,))


def two_boxes() -> Data:
    """A box in U, open to the left, and a plain one that stands between its arms."""
    spine = [(102.0 * number, 0.0) for number in range(5)]
    tier = {"stands_on": Z + 5.5, "modules": [*spine, (0.0, 62.0), (408.0, 62.0)]}
    around = a_box((moved(U_PLAN),), 8, (tier,))
    # hand: flanges of spine and arms reach y = 92.5, x = 132.5 and 375.5; its own are 10 and 39 off them
    own = {"stands_on": Z + 5.5, "modules": [(204.0, 135.0)]}
    within = a_box((moved(plain(193.5, 124.5, 314.5, 205.5)),), 4, (own,))
    del within["tiers"]
    return a_layout([around, within], 4)


TWO_BOXES_CAR = a_car(WIDE, Opening("up"))
