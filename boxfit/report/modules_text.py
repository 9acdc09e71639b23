"""What `boxfit check` tells of a folder of modules, or of one: a table, and what is missing or odd."""

from collections.abc import Sequence

from boxfit.module import Module
from boxfit.report.columns import broken, table
from boxfit.report.odd_modules import density, litres, odd_modules, specific_energy

_HEADINGS = ("module", "mm", "litres", "kg", "kWh", "Wh/kg", "kg/l", "V", "A")


def modules_text(modules: Sequence[Module]) -> str:
    """One line a module, by file; then the lines on what is missing or odd, each with its file."""
    lines = table([_HEADINGS, *(_row(module) for module in sorted(modules, key=lambda one: one.stem))])
    odd = odd_modules(modules)
    lines += ["", f"missing or odd: {len(odd)}" if odd else "nothing missing, nothing odd"]
    return "\n".join([*lines, *(piece for line in odd for piece in broken(line, others="    "))]) + "\n"


def _row(module: Module) -> tuple[str, ...]:
    volts, current = module.voltage, module.current
    return (
        module.stem,
        " x ".join(f"{side:g}" for side in (module.length, module.width, module.height)),
        f"{litres(module):.2f}",
        f"{module.mass:g}",
        f"{module.energy:g}",
        f"{specific_energy(module):.0f}",
        f"{density(module):.2f}",
        f"{volts.empty:g}-{volts.nominal:g}-{volts.full:g}",
        f"{current.continuous:g}, {current.peak:g}" if current else "-",
    )
