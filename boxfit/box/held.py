"""A box with its hold-downs: shelves and liner make room for the blocks that these are screwed to."""

from dataclasses import replace

import shapely

from boxfit.bay import Bay, Block
from boxfit.box.fitting import Fittings
from boxfit.box.hold_down import hold_downs
from boxfit.box.hold_down_place import meets
from boxfit.box.parts import BoxParts, Liner, Plate, Shelf
from boxfit.box.strip_legs import strip_blocks
from boxfit.box_details import FIT
from boxfit.layout import PlacedBox
from boxfit.module import Module
from boxfit.surface import Outline


def with_hold_downs(
    parts: BoxParts, bay: Bay, box: PlacedBox, module: Module, taken: tuple[Block, ...] = ()
) -> BoxParts:
    """The parts with hold-downs among their fittings, nothing of them in what is `taken` [mm].

    A block that is welded to a wall is in the way of the shelf that is lowered past it, and of the liner:
    the shelf gets a notch at its edge, the liner one round the block.
    """
    held = hold_downs(parts.name, bay, box, module, (*parts.tray.ribs, *taken))
    blocks = tuple(block for strip in held.strips if strip.bar for block in strip_blocks(strip))
    return replace(
        parts,
        shelves=tuple(notched_shelf(shelf, blocks) for shelf in parts.shelves),
        liner=notched_liner(parts.liner, blocks) if parts.liner else None,
        fittings=together(parts.fittings, held),
    )


def together(*fittings: Fittings) -> Fittings:
    """Several fittings of one box as one."""
    return Fittings(
        strips=tuple(strip for one in fittings for strip in one.strips),
        bought=tuple(bought for one in fittings for bought in one.bought),
        cutouts=tuple(cutout for one in fittings for cutout in one.cutouts),
        fasteners=tuple(fastener for one in fittings for fastener in one.fasteners),
        notes=tuple(note for one in fittings for note in one.notes),
    )


def notched_liner(liner: Liner, blocks: tuple[Block, ...]) -> Liner:
    """The liner with a notch round each block, with air all round; sheets stay told whole."""
    grown = (Block(_moved(block.low, -FIT), _moved(block.high, FIT)) for block in blocks)
    sheets = [Block(one.sheet.low, one.sheet.high) for one in liner.sheets]
    return replace(
        liner, notches=tuple(block for block in grown if any(meets(block, sheet) for sheet in sheets))
    )


def _moved(point: tuple[float, float, float], by: float) -> tuple[float, float, float]:
    """A corner moved along all axes [mm]."""
    x, y, z = point
    return (x + by, y + by, z + by)


def notched_shelf(shelf: Shelf, blocks: tuple[Block, ...]) -> Shelf:
    """The shelf with a notch at its edge for every block above it that it is lowered past."""
    above = [block for block in blocks if block.low[2] >= shelf.plate.top - FIT]
    plan = shapely.Polygon(shelf.plate.outline)
    cut = [
        shapely.box(block.low[0] - FIT, block.low[1] - FIT, block.high[0] + FIT, block.high[1] + FIT)
        for block in above
    ]
    left = plan.difference(shapely.union_all(cut))
    if not cut or left.equals(plan) or not isinstance(left, shapely.Polygon) or left.interiors:
        return shelf
    return replace(shelf, plate=Plate(_outline(left.simplify(0.0)), shelf.plate.bottom, shelf.plate.top))


def _outline(plan: shapely.Polygon) -> Outline:
    """Corners counter-clockwise from the lowest, each once."""
    corners = [(float(x), float(y)) for x, y in shapely.orient_polygons(plan).exterior.coords[:-1]]
    first = corners.index(min(corners))
    return tuple(corners[first:] + corners[:first])
