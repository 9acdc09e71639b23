"""A printed box: what of each part its cuts must know, and what no printer of the shop could make."""

from collections.abc import Iterator
from dataclasses import dataclass

from boxfit.bay import Block, BoxRules, Vector
from boxfit.box.fitting import Cutout
from boxfit.box.parts import BoxParts, CoverPlate, Lid, Shelf, Tray
from boxfit.box.print_cuts import cannot_cut, divided
from boxfit.box.print_joints import AROUND, Division, Ring, ToCut
from boxfit.box_details import ledge, rib_depth
from boxfit.box_shape import grown
from boxfit.layout import PlacedBox
from boxfit.surface import Point


@dataclass(frozen=True)
class PrintedPart:
    """A part of a box that is printed, and how it is cut for the bed."""

    name: str
    material: str
    division: Division


def printed_parts(parts: BoxParts, rules: BoxRules) -> tuple[PrintedPart, ...]:
    """Tray, lid, cover plate and shelves of a printed box; none of a box that is not printed.

    What is of another material than the box, such as a polished cover plate, is not printed.
    """
    if rules.process != "printed":
        return ()
    shop = rules.print_shop
    found: list[tuple[Tray | Lid | CoverPlate | Shelf, ToCut]] = [
        (parts.tray, _tray(parts.tray, rules)),
        (parts.lid, _lid(parts.lid)),
    ]
    if parts.cover_plate:
        found.append((parts.cover_plate, _cover_plate(parts.cover_plate)))
    found += [(shelf, _shelf(shelf)) for shelf in parts.shelves]
    return tuple(
        PrintedPart(part.name, part.material, divided(to_cut, shop))
        for part, to_cut in found
        if part.material == rules.material
    )


def printed_notes(printed: tuple[PrintedPart, ...], rules: BoxRules) -> tuple[str, ...]:
    """What a maker should know of the joints of a printed box."""
    cut = [part for part in printed if part.division.upright or part.division.level]
    if not cut:
        return ()
    tray = cut[0]
    if tray.name.endswith("tray") and not tray.division.laps:
        least = 2.0 * rules.print_shop.least_wall + rules.print_shop.joint
        return (
            f"{tray.name}: walls of {rules.thickness:g} mm are too thin to lap, so their joints are butted: "
            f"glue a strip over each; box.thickness = {least:g} would do",
        )
    return ()


def cannot_print(rules: BoxRules, boxes: tuple[PlacedBox, ...] = ()) -> tuple[str, ...]:
    """Why a print shop cannot make a printed box, each reason naming its key; empty where it can.

    >>> from boxfit.workshop import PrintShop
    >>> rules = BoxRules("petg", "printed", "rectangular", 1, 0, 22, 2, 10, 3, 4, 5, 1, 1)
    >>> cannot_print(rules)
    ("box.thickness: the printer's least wall is print_shop.least_wall 1.2 (got 1)",)
    """
    if rules.process != "printed":
        return ()
    shop = rules.print_shop
    problems = [
        f"box.{key}: the printer's least wall is print_shop.least_wall {shop.least_wall:g} (got {value:g})"
        for key, value in (("thickness", rules.thickness), ("lid_thickness", rules.lid_thickness))
        if value < shop.least_wall - 1e-9
    ]
    sizes = [_tray_size(box, rules) for box in boxes] or [(0.0, 0.0, 0.0)]
    found = [reason for size in sizes for reason in cannot_cut("the tray", size, rules.thickness, shop)]
    return (*problems, *dict.fromkeys(found))


def _tray_size(box: PlacedBox, rules: BoxRules) -> Vector:
    """Extent [mm] of a box's tray, flange and all."""
    x, y, z = (high - low for low, high in zip(box.low, box.high, strict=True))
    return (x + 2.0 * rules.flange, y + 2.0 * rules.flange, z - rules.rim_below_top)


def _tray(tray: Tray, rules: BoxRules) -> ToCut:
    """Dovetails hold its floor, its step floors and its flange; laps its walls."""
    thick, bar = tray.thickness, ledge(rules)
    inwards = max(rib_depth(rules), bar.width if bar and tray.ledges else 0.0)
    top, bottom = tray.bands[-1], tray.bands[0]
    plates = [Ring(grown(bottom.outline, -thick - inwards))]
    plates += [
        Ring(grown(step.plate.outline, -thick - inwards), grown(step.hole, thick))
        for step in tray.step_floors
    ]
    plates += [Ring(grown(top.outline, tray.flange), top.outline)] if tray.flange else []
    low, high = grown_extent(tray.outside, tray.flange)
    levels = [(bottom.bottom, bottom.bottom + thick), (top.top - thick, top.top)]
    levels += [(step.plate.bottom, step.plate.top) for step in tray.step_floors]
    levels += [(one.outside.bottom, one.outside.top) for one in tray.ledges]
    rim = (top.top - thick, top.top)
    stops = (*_round(tray.holes, tray.hole_diameter, rim), *(_cutout(one, thick) for one in tray.cutouts))
    return ToCut(low, high, tuple(plates), tray.bands, thick, inwards, stops, tray.ribs, tuple(levels))


def grown_extent(block: Block, by: float) -> tuple[Vector, Vector]:
    """Low and high corner of a block that is so much [mm] wider all round in plan."""
    (x, y, z), (a, b, c) = block.low, block.high
    return (x - by, y - by, z), (a + by, b + by, c)


def _lid(lid: Lid) -> ToCut:
    """A plate with holes and the studs on it."""
    plate, stud = lid.plate, lid.stud
    tall = stud.collar_height + stud.thread_height if stud and lid.studs else 0.0
    stops = [*_round(lid.holes, lid.hole_diameter, (plate.bottom, plate.top))]
    if stud:
        stops += _round(lid.studs, stud.collar, (plate.bottom, plate.top))
    x, y, z = plate.high
    return ToCut(plate.low, (x, y, z + tall), (Ring(plate.outline),), stops=tuple(stops))


def _cover_plate(cover: CoverPlate) -> ToCut:
    """A plate with holes, its returned edges cut straight through."""
    plate, edge = cover.plate, 2.0 * cover.thickness if cover.returned else 0.0
    stops = tuple(_round(cover.holes, cover.hole_diameter, (plate.bottom, plate.top)))
    low = (plate.low[0], plate.low[1], plate.top - cover.height)
    return ToCut(low, plate.high, (Ring(grown(plate.outline, -edge)),), stops=stops)


def _shelf(shelf: Shelf) -> ToCut:
    """A plain plate."""
    return ToCut(shelf.plate.low, shelf.plate.high, (Ring(shelf.plate.outline),))


def _round(points: tuple[Point, ...], diameter: float, up: tuple[float, float]) -> Iterator[Block]:
    """The blocks round upright holes or studs."""
    half = diameter / 2.0
    for x, y in points:
        yield Block((x - half, y - half, up[0]), (x + half, y + half, up[1]))


def _cutout(cutout: Cutout, thick: float) -> Block:
    """The block round a hole in a wall or floor, through the sheet and what stands inside it."""
    wide, tall = cutout.size if not cutout.diameter else (cutout.diameter, cutout.diameter)
    deep = 2.0 * (thick + AROUND)
    halves = {
        "front": (deep, wide, tall),
        "rear": (deep, wide, tall),
        "left": (wide, deep, tall),
        "right": (wide, deep, tall),
        "up": (wide, tall, deep),
        "down": (wide, tall, deep),
    }[cutout.looks]
    (x, y, z), (a, b, c) = cutout.at, (half / 2.0 for half in halves)
    return Block((x - a, y - b, z - c), (x + a, y + b, z + c))
