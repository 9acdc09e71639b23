"""Bays, boxes and what stands in their way, to try the free plan on."""

from dataclasses import dataclass, replace

from hypothesis import strategies as st

from boxfit.bay import Bay, Block, Cylinder, Keepout, Opening, Point, Prism, Vector, Way
from boxfit.judge.distance import Cuboid
from boxfit.judge.places import SetBox
from boxfit.space.free import BoxLevels
from tests.box.samples import RULES

FLOOR, TOP = 200.0, 600.0

OUTLINES: tuple[tuple[Point, ...], ...] = (
    ((-400.0, -300.0), (400.0, -300.0), (400.0, 300.0), (-400.0, 300.0)),
    ((-420.0, -340.0), (250.0, -400.0), (250.0, 400.0), (-420.0, 340.0)),
    ((-400.0, -300.0), (400.0, -300.0), (400.0, 50.0), (100.0, 50.0), (100.0, 300.0), (-400.0, 300.0)),
    ((-400.0, -300.0), (400.0, -250.0), (150.0, 0.0), (400.0, 250.0), (-400.0, 300.0)),
    (
        (400.0, -300.0), (400.0, -100.0), (50.0, -100.0), (50.0, 120.0), (400.0, 120.0), (400.0, 300.0),
        (-400.0, 300.0), (-400.0, -300.0),
    ),
)  # fmt: skip
"""Plain, narrowing, with a step, with a fold inwards, and with two arms that both end at the front."""

ways: st.SearchStrategy[Way] = st.sampled_from(["up", "down", "front", "rear", "left", "right"])


def tenths(low: float, high: float) -> st.SearchStrategy[float]:
    """Lengths [mm] to a tenth."""
    return st.integers(round(low * 10), round(high * 10)).map(lambda number: number / 10.0)


places_in_bay: st.SearchStrategy[Vector] = st.tuples(tenths(-400, 380), tenths(-300, 280), tenths(200, 580))


@st.composite
def keepouts(draw: st.DrawFn, tolerance: float) -> Keepout:
    """A block or a bar of any direction within the bay's room."""
    x, y, z = draw(places_in_bay)
    solid: Block | Cylinder
    if draw(st.booleans()):
        a, b, c = (draw(tenths(5, 300)) for _ in range(3))
        solid = Block((x, y, z), (min(x + a, 400.0), min(y + b, 300.0), min(z + c, TOP)))
    else:
        end = draw(places_in_bay)
        if abs(end[0] - x) + abs(end[1] - y) + abs(end[2] - z) < 1.0:
            end = (x, y, z - 20.0)
        solid = Cylinder((x, y, z), end, draw(tenths(4, 90)))
    return Keepout("pipe", solid, tolerance + draw(st.sampled_from([0.0, 10.0, 25.0])))


@st.composite
def openings(draw: st.DrawFn) -> Opening:
    """Any way in, with or without a hole smaller than the side, of four or of five corners."""
    way: Way = draw(ways)
    if draw(st.booleans()):
        return Opening(way)
    first = (FLOOR, TOP) if way in ("front", "rear") else (-300.0, 300.0)
    low_b, high_b = first if way in ("up", "down", "front", "rear") else (FLOOR, TOP)
    low_a, high_a = (-300.0, 300.0) if way in ("front", "rear") else (-400.0, 400.0)
    a, c = low_a + draw(tenths(0, 80)), high_a - draw(tenths(0, 80))
    b, d = low_b + draw(tenths(0, 30)), high_b - draw(tenths(0, 30))
    cut = draw(st.sampled_from([0.0, 0.0, 60.0]))
    corners = [(a, b), (c, b), (c, d - cut), (c - cut, d), (a, d)]
    return Opening(way, tuple(dict.fromkeys(corners)))


@st.composite
def bays(draw: st.DrawFn, ways_in: bool = True) -> Bay:
    """A bay with up to two keep-outs and any opening."""
    tolerance = draw(st.sampled_from([0.0, 3.0]))
    flange = draw(st.sampled_from([0.0, 22.0]))
    return Bay(
        "front bay",
        Prism(draw(st.sampled_from(OUTLINES)), FLOOR, TOP),
        tolerance,
        tolerance + draw(st.sampled_from([0.0, 10.0, 25.0])),
        replace(RULES, flange=flange),
        tuple(draw(st.lists(keepouts(tolerance), max_size=2))),
        draw(openings()) if ways_in and draw(st.booleans()) else None,
    )


@dataclass(frozen=True)
class BoxSize:
    """Outside of a box [mm] and the level it stands on."""

    width: float
    depth: float
    height: float
    bottom: float

    def levels(self, bay: Bay) -> BoxLevels:
        """Its levels, with the bay's sheet and lid."""
        top = self.bottom + self.height
        return BoxLevels(self.bottom, top - bay.box.lid_thickness - bay.box.thickness, top)

    def at(self, bay: Bay, x: float, y: float) -> SetBox:
        """The box as the judge takes it, its low corner at x, y [mm]."""
        levels, flange = self.levels(bay), bay.box.flange
        body = Cuboid((x, y, levels.bottom), (x + self.width, y + self.depth, levels.top))
        slab = Cuboid(
            (x - flange, y - flange, levels.flange_bottom),
            (body.high[0] + flange, body.high[1] + flange, levels.top),
        )
        return SetBox("box", bay, body, slab)


@st.composite
def sizes(draw: st.DrawFn, bay: Bay) -> BoxSize:
    """A box that stands between floor and top of the bay with their distances."""
    height = draw(tenths(40, 300))
    lowest, highest = bay.room.floor + bay.distance, bay.room.top - bay.distance - height
    bottom = lowest + draw(st.sampled_from([0.0, 0.3, 0.7, 1.0])) * (highest - lowest)
    return BoxSize(draw(tenths(20, 500)), draw(tenths(20, 400)), height, round(bottom, 3))
