"""The plain note that goes with a parcel: what a shop must know besides drawings and lists."""

from collections.abc import Iterable, Iterator
from textwrap import wrap

from boxfit.bay import BoxRules
from boxfit.box.printed import printed_notes, printed_parts
from boxfit.box.whole import BuiltBox
from boxfit.sheet.stock import Wanted
from boxfit.standards.bending import k_factor, least_inside_radius

WIDTH = 96
"""Letters to a line."""
FILL_IN = "Contact: ______________________________   telephone: ____________________   date: ____________"
AID = (
    "A working aid, not an approval: check every figure before cutting; local codes and licensed practice "
    "decide, and an engineer signs."
)
CUT_CAUTIONS = (
    "The bent part counts: flats are for reference, made with the K told here. Use the shop's own K where it "
    "differs, keep the outside formed dimensions, and say so.",
    "Welding: never with modules in the box or the car. Edges are sharp: break them all, most of all inside, "
    "where they could cut a liner or a cable.",
    "The boxes hold batteries: leave no swarf, spatter or loose wire inside.",
)
PRINT_CAUTIONS = (
    "A printed box holds batteries: whether its plastic stands heat, flame and crash is for an engineer to "
    "prove.",
    "Gauges and dummies are for trying only: they carry nothing.",
)


def cut_shop_note(
    title: str,
    built: tuple[BuiltBox, ...],
    wanted: tuple[Wanted, ...],
    told: Iterable[str],
    findings: Iterable[str],
) -> str:
    """For the shop that cuts, folds and welds; `told` is about stock sheets, `findings` what breaks rules."""
    sections = (
        ("Units", ("millimetres, drawings 1:1; DXF R2010, layers cut, fold up, fold down, mark, note",)),
        ("Materials", tuple(_materials(wanted))),
        ("Bends", tuple(_bends(wanted))),
        ("Finish and grain", (FINISH,)),
        ("Tolerances", tuple(dict.fromkeys(_tolerances(one.bay.box) for one in built if wanted))),
        ("Parts", tuple(f"{one.number}  {one.flat.name}: {one.flat.quantity} off" for one in wanted)),
        ("Stock sheets", tuple(told)),
        ("Findings", tuple(findings) or ("none",)),
        ("Cautions", CUT_CAUTIONS),
    )
    return _note(f"{title}: for the shop that cuts, folds and welds", sections)


def print_shop_note(title: str, built: tuple[BuiltBox, ...], pieces: tuple[str, ...]) -> str:
    """For the shop that prints; `pieces` says of every file how often it is printed."""
    printed = [(one.parts, one.bay.box) for one in built if one.bay.box.process == "printed"]
    notes = tuple(
        note for parts, rules in printed for note in printed_notes(printed_parts(parts, rules), rules)
    )
    sections = (
        ("Units", ("millimetres; STL names no unit, so check one size of the lists before printing",)),
        ("Materials", (*dict.fromkeys(_printed(rules) for _, rules in printed), GAUGES)),
        ("Quantity", pieces or ("nothing to print",)),
        ("Tolerances", tuple(dict.fromkeys(_print_tolerances(one.bay.box) for one in built))),
        ("Findings", notes or ("none",)),
        ("Cautions", PRINT_CAUTIONS),
    )
    return _note(f"{title}: for the shop that prints", sections)


FINISH = (
    "finish to be agreed; in the layouts the grain runs along the sheet: of parts folded one way only, folds "
    "as tight as the sheet takes lie across it unless told under stock sheets; of parts folded both ways "
    "some lie along it"
)
GAUGES = "gauges and dummies: any plastic that keeps its shape"


def _note(head: str, sections: Iterable[tuple[str, tuple[str, ...]]]) -> str:
    """Heading, place for a contact, sections of entries behind dashes, and what all this is worth."""
    lines = [*wrap(head, WIDTH), "", FILL_IN]
    for name, entries in sections:
        if entries:
            lines += ["", name]
        for entry in entries:
            lines += wrap(entry, WIDTH, initial_indent="  - ", subsequent_indent="    ")
    return "\n".join([*lines, "", *wrap(AID, WIDTH), ""])


def _materials(wanted: tuple[Wanted, ...]) -> Iterator[str]:
    """Each sort of sheet or bar with how many parts are made of it."""
    counts: dict[tuple[str, float, bool], int] = {}
    for one in wanted:
        sort = (one.flat.material, one.flat.thickness, one.flat.bar)
        counts[sort] = counts.get(sort, 0) + one.flat.quantity
    for (material, thickness, bar), count in sorted(counts.items()):
        least = None if bar else least_inside_radius(material, thickness)
        temper = f"; temper to be agreed, radii hold for {least.source}" if least else "; temper to be agreed"
        yield f"{material}, {thickness:g} mm{' flat bar' if bar else ''}: {count} parts{temper}"


def _bends(wanted: tuple[Wanted, ...]) -> Iterator[str]:
    """Radius and K for each sort of sheet that is folded."""
    sorts = {
        (one.flat.material, one.flat.thickness, bend.radius, bend.k)
        for one in wanted
        for bend in one.flat.bends
    }
    for material, thickness, radius, k in sorted(sorts):
        by = "DIN 6935" if k == k_factor(radius, thickness) else "the shop's own"
        yield f"{material}, {thickness:g} mm: inside radius {radius:g} mm, K {k:.3f} ({by})"


def _tolerances(rules: BoxRules) -> str:
    """As the fit of the modules was reckoned with."""
    by = rules.tolerances
    return (
        f"general ISO 2768-m, welds ISO 13920-B; the modules' fit was reckoned with ± {by.cut:g} mm at a cut "
        f"edge, ± {by.fold:g} mm and ± {by.fold_angle:g} degrees at a fold, ± {by.weld:g} mm at a welded wall"
    )


def _printed(rules: BoxRules) -> str:
    """What a box is printed of."""
    return f"{rules.material}: walls {rules.thickness:g} mm, filled through"


def _print_tolerances(rules: BoxRules) -> str:
    """Walls and joints."""
    joint = f"keyed joints have {rules.print_shop.joint:g} mm of air on each side"
    return f"± {rules.tolerances.printed:g} mm at a wall; {joint}: print one joint first and try it"
