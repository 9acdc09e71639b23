"""From a placed box and the workshop's rules to the parts it is made of."""

from itertools import pairwise

from boxfit.bay import Bay, BoxRules, Point
from boxfit.box.liner import liner_of
from boxfit.box.notes import box_notes
from boxfit.box.parts import BoxParts, CoverPlate, LedgeBar, Lid, Plate, Shelf, StepFloor, Tray
from boxfit.box_details import (
    FIT,
    LID_HOLE,
    STUD_DIAMETER,
    STUD_HEIGHT,
    TRAY_HOLE,
    cover_plate_lacking,
    ledge,
    screw_points,
    stud_points,
)
from boxfit.box_shape import grown
from boxfit.layout import PlacedBox
from boxfit.surface import Outline


def box_name(bay: str, number: int) -> str:
    """What a box is called in files and drawings; boxes count from 1 in each bay.

    >>> box_name("front bay", 1)
    'front bay box 1'
    """
    return f"{bay} box {number}"


def box_parts(bay: Bay, number: int, box: PlacedBox) -> BoxParts:
    """The parts of the bay's box `number` (from 1), in the car's coordinates [mm].

    Only for rules and boxes of which `cannot_build` says nothing.
    """
    rules, name = bay.box, box_name(bay.name, number)
    lacking = cover_plate_lacking(box.high[2], bay)
    return BoxParts(
        name=name,
        tray=_tray(name, box, rules),
        lid=Lid(f"{name} lid", rules.material, _lid_plate(box, rules), _screws(box, rules), LID_HOLE),
        cover_plate=_cover_plate(name, box, rules) if lacking == 0.0 else None,
        cover_plate_lacking=lacking,
        shelves=_shelves(name, box, rules),
        liner=liner_of(name, box, rules),
        notes=box_notes(name, box, rules, lacking),
    )


def _top(box: PlacedBox) -> Outline:
    """The outline under the lid [mm], counted from the box's corner."""
    return tuple((x - box.low[0], y - box.low[1]) for x, y in box.outlines[-1])


def _in_car(box: PlacedBox, points: tuple[Point, ...]) -> tuple[Point, ...]:
    """Points [mm] counted from the box's corner, in the car's coordinates."""
    return tuple((box.low[0] + x, box.low[1] + y) for x, y in points)


def _screws(box: PlacedBox, rules: BoxRules) -> tuple[Point, ...]:
    """Where the lid screws stand in the car [mm]."""
    return _in_car(box, screw_points(_top(box), rules))


def _lid_plate(box: PlacedBox, rules: BoxRules) -> Plate:
    """The lid lies on the flange and ends with it."""
    return Plate(grown(box.outlines[-1], rules.flange), box.high[2] - rules.lid_thickness, box.high[2])


def _tray(name: str, box: PlacedBox, rules: BoxRules) -> Tray:
    """Floor, walls and flange, with a ledge under every shelf and a floor under every step."""
    bar, thick, bands = ledge(rules), rules.thickness, _bands(box, rules)
    undersides = [tier.stands_on - thick for tier in box.tiers[1:]] if bar else []
    return Tray(
        name=f"{name} tray",
        material=rules.material,
        bands=bands,
        step_floors=tuple(
            StepFloor(Plate(upper.outline, upper.bottom, upper.bottom + thick), grown(lower.outline, -thick))
            for lower, upper in pairwise(bands)
        ),
        thickness=thick,
        bend_radius=rules.bend_radius if rules.process == "folded" else None,
        flange=rules.flange,
        holes=_screws(box, rules),
        hole_diameter=TRAY_HOLE,
        ledges=tuple(
            LedgeBar(Plate(grown(outline, -thick), top - bar.height, top), bar.width)
            for outline, top in zip(box.outlines, undersides, strict=False)
            if bar
        ),
    )


def _bands(box: PlacedBox, rules: BoxRules) -> tuple[Plate, ...]:
    """The outside of the walls, from the floor to the rim, a new band wherever the outline widens."""
    bottoms, outlines = [box.low[2]], [box.outlines[0]]
    for tier, outline in zip(box.tiers[1:], box.outlines[1:], strict=True):
        if outline != outlines[-1]:
            bottoms.append(tier.stands_on - rules.thickness)
            outlines.append(outline)
    tops = (*bottoms[1:], box.high[2] - rules.rim_below_top)
    return tuple(Plate(*band) for band in zip(outlines, bottoms, tops, strict=True))


def _cover_plate(name: str, box: PlacedBox, rules: BoxRules) -> CoverPlate:
    """Over the lid, as large as the lid."""
    bottom = box.high[2] + STUD_HEIGHT
    return CoverPlate(
        name=f"{name} cover plate",
        material=rules.material,
        plate=Plate(grown(box.outlines[-1], rules.flange), bottom, bottom + rules.lid_thickness),
        studs=_in_car(box, stud_points(_top(box))),
        stud_diameter=STUD_DIAMETER,
        stud_height=STUD_HEIGHT,
    )


def _shelves(name: str, box: PlacedBox, rules: BoxRules) -> tuple[Shelf, ...]:
    """One under each tier but the lowest, within the walls of the tier below it."""
    return tuple(
        Shelf(
            f"{name} shelf {number}",
            rules.material,
            Plate(
                grown(box.outlines[number - 1], -rules.thickness - FIT),
                tier.stands_on - rules.thickness,
                tier.stands_on,
            ),
        )
        for number, tier in enumerate(box.tiers[1:], start=1)
    )
