"""What a print shop makes: the pieces of printed boxes, and the aids that any box is tried with."""

from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.jobs.going_on import refuse_faulty
from boxfit.module import Module

if TYPE_CHECKING:
    from boxfit.box.whole import BuiltBox
    from boxfit.workshop import PrintShop


def write_prints(built: "tuple[BuiltBox, ...]", module: Module, folder: Path) -> tuple[str, ...]:
    """Writes and judges all that is printed; returns what a maker should know of it.

    The whole parts must be in the folder. Raises JudgedWrongError.
    """
    from boxfit.box.gauges import gauge_notes
    from boxfit.judge.printed import judge_printed
    from boxfit.solid.gauges import write_gauges
    from boxfit.solid.printed import write_printed

    _, notes = write_printed(built, folder)
    write_gauges(module, built, folder)
    findings = judge_printed(folder, print_shops(built, module))
    refuse_faulty(findings)
    return (*notes, *gauge_notes(module, built))


def print_shops(built: "tuple[BuiltBox, ...]", module: Module) -> "dict[str, PrintShop]":
    """Who prints each part and aid, by the stem of its files."""
    from boxfit.box.gauges import gauges
    from boxfit.box.names import file_stem
    from boxfit.box.printed import printed_parts
    from boxfit.solid.printed import printed_strips

    rules = [(one, one.bay.box) for one in built]
    shops = {
        file_stem(part.name): own.print_shop for one, own in rules for part in printed_parts(one.parts, own)
    }
    shops |= {file_stem(strip.name): own.print_shop for one, own in rules for strip, _ in printed_strips(one)}
    return shops | {file_stem(gauge.name): rules[0][1].print_shop for gauge in gauges(module, built)}
