"""Boxes: what each is made of, its welds, what is fixed to it, and its fasteners. [mm, kg]"""

from collections.abc import Iterator

from boxfit.box.lid_fasteners import lid_fasteners
from boxfit.box.welds import length_of, welds_of
from boxfit.box.whole import BuiltBox
from boxfit.papers.case import Case, xyz
from boxfit.papers.flow import Block, Heading, Points, Section, Words
from boxfit.papers.grid import Grid
from boxfit.sheet.fastener_list import merged
from boxfit.standards.bending import least_inside_radius
from boxfit.standards.materials import LINER, MATERIALS


def boxes(case: Case) -> Section:
    """The section of boxes."""
    return Section("Boxes", tuple(_blocks(case)))


def _blocks(case: Case) -> Iterator[Block]:
    yield made_table(case)
    yield Points(tuple(dict.fromkeys(_material_notes(case))))
    for one in case.built:
        yield Heading(one.parts.name)
        yield parts_table(case, one)
        yield welds_table(one)
        yield strips_table(one)
        yield bought_table(one)
        yield fasteners_table(one)
        yield from _notes(one)


def made_table(case: Case) -> Grid:
    """How each box is made, side by side."""
    rows = []
    for one in case.built:
        rules, box = one.bay.box, one.box
        size = " x ".join(f"{high - low:.0f}" for low, high in zip(box.low, box.high, strict=True))
        bend = f"{rules.bend_radius:g}" if rules.process == "folded" else "none"
        rows.append(
            (
                one.parts.name,
                f"{rules.material}, {rules.process}",
                f"{rules.thickness:g}",
                f"{rules.lid_thickness:g}",
                bend,
                size,
                f"{rules.flange:g}",
                str(len(box.modules)),
            )
        )
    columns = (
        "box",
        "material, process",
        "sheet",
        "lid",
        "radius inside",
        "outside, flange apart",
        "flange",
        "modules",
    )
    return Grid("Boxes in mm", columns, tuple(rows), frozenset((2, 3, 4, 6, 7)))


def _material_notes(case: Case) -> Iterator[str]:
    """Sources of what the material is told to be, and the least radius it takes."""
    for rules in dict.fromkeys(one.bay.box for one in case.built):
        material = MATERIALS[rules.material]
        yield f"{material.name}: {material.density:g} kg/m3, {material.source}"
        least = least_inside_radius(rules.material, rules.thickness)
        if least and rules.process == "folded":
            yield (
                f"{rules.material} of {rules.thickness:g} mm: least radius inside {least.radius:g} mm for 90 "
                f"degrees ({least.source}); the boxes have {rules.bend_radius:g} mm"
            )
    yield f"liner: {LINER.name}, insulating and slow to burn through: ask its maker for the flame class"


def parts_table(case: Case, one: BuiltBox) -> Grid:
    """Tray, lid, gasket, cover plate, shelves and liner."""
    parts = one.parts
    rows = [("tray", parts.tray.material, f"{parts.tray.thickness:g}", _tray_words(one))]
    lid = parts.lid.plate
    rows.append(("lid", parts.lid.material, f"{lid.top - lid.bottom:g}", f"{len(parts.lid.holes)} screws M5"))
    if parts.gasket:
        gasket = parts.gasket
        words = f"{gasket.width:g} wide, pressed to {gasket.pressed:.1f}, {gasket.order:.0f} long"
        rows.append(("gasket", gasket.material, f"{gasket.thickness:g}", words))
    if parts.cover_plate:
        cover = parts.cover_plate
        words = "returned edges" if cover.returned else "flat"
        rows.append(
            ("cover plate", cover.material, f"{cover.thickness:g}", f"{words}, on {len(cover.holes)} studs")
        )
    for shelf in parts.shelves:
        thick = shelf.plate.top - shelf.plate.bottom
        rows.append((shelf.name.removeprefix(f"{parts.name} "), shelf.material, f"{thick:g}", "on ledges"))
    if parts.liner:
        rows.append(("liner", parts.liner.material, f"{one.bay.box.liner:g}", "floor and walls inside"))
    rows.append(("modules", case.module.name, "", f"{len(one.box.modules)} of {case.module.mass:g} kg"))
    return Grid("Parts", ("part", "material", "mm", ""), tuple(rows), frozenset((2,)))


def _tray_words(one: BuiltBox) -> str:
    """How the tray is put together."""
    tray = one.parts.tray
    if one.bay.box.process == "printed":
        return "printed in pieces"
    joint = (
        "floor and walls folded from one blank"
        if tray.floor_radius is not None
        else "floor and walls welded square"
    )
    flange = "flange folded" if tray.bend_radius is not None else "flange of strips welded on"
    return f"{joint}, {flange}" if tray.flange else joint


def welds_table(one: BuiltBox) -> Block:
    """Every seam and the length of all."""
    welds = welds_of(one.parts, one.bay.box)
    if not welds:
        return Words("Welds: none, the box is printed.")
    rows = [
        (
            weld.name,
            weld.joins,
            str(weld.quantity),
            f"{weld.length:.0f}",
            f"{weld.whole:.0f}",
            weld.preparation,
        )
        for weld in welds
    ]
    rows.append(
        ("all seams", "", "", "", f"{length_of(welds):.0f}", "hold-downs, feet, lugs and housings included")
    )
    columns = ("seam", "joins", "qty", "mm each", "mm in all", "edges")
    return Grid(
        "Welds; tolerances ISO 13920-B, by a qualified welder", columns, tuple(rows), frozenset((2, 3, 4))
    )


def strips_table(one: BuiltBox) -> Block:
    """Hold-downs, feet and the like."""
    strips = one.parts.fittings.strips
    if not strips:
        return Words("Hold-downs and feet: none could be placed; see the notes.")
    counted: dict[tuple[str, str, str, str], int] = {}
    for strip in strips:
        legs = " + ".join(f"{length:.0f}" for _, length in strip.legs)
        key = (strip.kind, strip.material, f"{strip.thickness:g}", f"{strip.width:.0f} long, legs {legs}")
        counted[key] = counted.get(key, 0) + 1
    rows = tuple(
        (kind, str(count), metal, thick, size) for (kind, metal, thick, size), count in counted.items()
    )
    return Grid(
        "Hold-downs, feet, lugs and housings of sheet or bar",
        ("part", "qty", "material", "mm", "size mm"),
        rows,
        frozenset((1, 3)),
    )


def bought_table(one: BuiltBox) -> Block:
    """What is bought and where it sits."""
    bought = one.parts.fittings.bought
    if not bought:
        return Words("Bought parts: none could be placed; see the notes.")
    rows = tuple((each.name, each.looks, *xyz(each.at), each.about) for each in bought)
    return Grid(
        "Bought parts; x, y, z in mm",
        ("part", "looks", "x", "y", "z", "what it is"),
        rows,
        frozenset((2, 3, 4)),
    )


def fasteners_table(one: BuiltBox) -> Grid:
    """Screws, nuts, washers."""
    listed = merged((*lid_fasteners(one.parts, one.bay.box), *one.parts.fittings.fasteners))
    rows = tuple((str(each.count), each.what, each.thread, each.where) for each in listed)
    return Grid("Fasteners", ("qty", "what", "size", "where"), rows, frozenset((0,)))


def _notes(one: BuiltBox) -> Iterator[Block]:
    """What was told when the box was made."""
    told = dict.fromkeys((*one.parts.notes, *one.parts.fittings.notes))
    if told:
        yield Heading(f"Told when {one.parts.name} was made")
        yield Points(tuple(note.removeprefix(f"{one.parts.name}: ") for note in told))
