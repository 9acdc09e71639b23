"""Swelling and heat in plain words, a few lines for each box."""

from boxfit.box.swelling import Heat, Swelling, heat_of, swelling_of
from boxfit.box.whole import BuiltBox
from boxfit.module import Module
from boxfit.report.columns import listed
from boxfit.standards.heat import SWELLING, WARMER


def heat_lines(built: tuple[BuiltBox, ...], module: Module) -> list[str]:
    """The block of the summary on swelling and heat."""
    return ["swelling and heat", *listed(heat_words(built, module))]


def heat_words(built: tuple[BuiltBox, ...], module: Module) -> tuple[str, ...]:
    """What is said of the swelling and heat of each box, a sentence each."""
    said: list[str] = []
    for one in built:
        swelling = swelling_of(one, module)
        said += [_swelling(one.parts.name, swelling)] if swelling else []
        said.append(_heat(one.parts.name, heat_of(one, module)))
    return tuple(said)


def _swelling(name: str, found: Swelling) -> str:
    percent = f"{100.0 * SWELLING:.0f} %"
    words = (
        f"{name}: pouch cells grow {percent} along their stack (common practice, no source):"
        f" {found.grows:.0f} mm in a row of {found.modules} if stacked along the module's length,"
        f" {found.free:.0f} mm are free there"
    )
    if found.lacks:
        words += (
            f"; the modules' own end plates must keep in {found.lacks:.0f} mm: ask their maker, and"
            " leave packers soft"
        )
    return words


def _heat(name: str, found: Heat) -> str:
    words = (
        f"{name}: closed, {WARMER:.0f} K above still air it gives off about {found.off:.0f} W; the liner's"
        f" {found.liner:.4f} m2 K/W keeps in little of that (from memory)"
    )
    if found.made is None or found.rate is None:
        return f"{words}; no current is told, so heat is not judged"
    words += f"; at continuous current, {found.rate:.1f} of capacity an hour, its modules make about"
    words += f" {found.made:.0f} W"
    if found.needs:
        return (
            f"{words}: COOLING is needed for lasting use (common practice, no source): ask the modules' maker"
        )
    return f"{words}: ask the modules' maker about cooling" if found.asks else words
