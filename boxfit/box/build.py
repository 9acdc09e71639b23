"""From a placed box and the workshop's rules to the parts it is made of."""

from itertools import pairwise

from boxfit.bay import Bay, Block, BoxRules, Point
from boxfit.box.cover import Cover, cover_of
from boxfit.box.gasket import gasket_of
from boxfit.box.liner import liner_of
from boxfit.box.notes import box_notes
from boxfit.box.parts import BoxParts, LedgeBar, Lid, Plate, Shelf, StepFloor, Tray
from boxfit.box_blank import floor_radius
from boxfit.box_details import (
    LID_HOLE,
    TRAY_HOLE,
    ledge,
    screw_points,
    shelf_inset,
)
from boxfit.box_ribs import rib_blocks
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
    cover = cover_of(name, bay, box)
    return BoxParts(
        name=name,
        tray=_tray(name, box, rules),
        lid=_lid(name, box, rules, cover),
        cover_plate=cover.plate,
        cover_plate_lacking=cover.lacking,
        shelves=_shelves(name, box, rules),
        liner=liner_of(name, box, rules),
        notes=(*box_notes(name, box, rules), *cover.notes),
        gasket=gasket_of(name, box, rules),
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


def _lid(name: str, box: PlacedBox, rules: BoxRules, cover: Cover) -> Lid:
    """The lid lies on flange or gasket and ends with the flange."""
    under = box.high[2] - rules.lid_thickness
    return Lid(
        name=f"{name} lid",
        material=rules.material,
        plate=Plate(grown(box.outlines[-1], rules.flange), under, box.high[2]),
        holes=_screws(box, rules),
        hole_diameter=LID_HOLE,
        studs=cover.studs,
        stud=cover.stud,
    )


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
        floor_radius=floor_radius(box.outlines, box.high[2] - rules.rim_below_top - box.low[2], rules),
        flange=rules.flange,
        holes=_screws(box, rules),
        hole_diameter=TRAY_HOLE,
        ledges=tuple(
            LedgeBar(Plate(grown(outline, -thick), top - bar.height, top), bar.width)
            for outline, top in zip(box.outlines, undersides, strict=False)
            if bar
        ),
        ribs=box_ribs(box, rules),
    )


def box_ribs(box: PlacedBox, rules: BoxRules) -> tuple[Block, ...]:
    """Those of a printed box, inside its walls and on its floor, before any makes way for a cutout. [mm]"""
    bottom = box.low[2]
    levels = tuple(tier.stands_on - bottom for tier in box.tiers)
    return rib_blocks(box.outlines, bottom, box.high[2] - rules.rim_below_top - bottom, levels, rules)


def _bands(box: PlacedBox, rules: BoxRules) -> tuple[Plate, ...]:
    """The outside of the walls, from the floor to the rim, a new band wherever the outline widens."""
    bottoms, outlines = [box.low[2]], [box.outlines[0]]
    for tier, outline in zip(box.tiers[1:], box.outlines[1:], strict=True):
        if outline != outlines[-1]:
            bottoms.append(tier.stands_on - rules.thickness)
            outlines.append(outline)
    tops = (*bottoms[1:], box.high[2] - rules.rim_below_top)
    return tuple(Plate(*band) for band in zip(outlines, bottoms, tops, strict=True))


def _shelves(name: str, box: PlacedBox, rules: BoxRules) -> tuple[Shelf, ...]:
    """One under each tier but the lowest, within the walls of the tier below it."""
    return tuple(
        Shelf(
            f"{name} shelf {number}",
            rules.material,
            Plate(
                grown(box.outlines[number - 1], -shelf_inset(rules)),
                tier.stands_on - rules.thickness,
                tier.stands_on,
            ),
        )
        for number, tier in enumerate(box.tiers[1:], start=1)
    )
