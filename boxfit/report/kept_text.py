"""What was kept for fittings and link cables, why, and what it cost, in plain sentences. [kg, -]"""

from collections.abc import Iterator

from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.report.columns import counted
from boxfit.search.alternatives import difference
from boxfit.weight.held import Held

FOR_IT = "what is fixed to the boxes and for link cables"


def kept_mass(layout: Layout) -> float:
    """All that was kept [kg]."""
    return sum(one.mass for one in layout.reserve)


def kept_words(layout: Layout) -> str:
    """Each mass that was kept.

    >>> from boxfit.car import PointMass
    >>> from boxfit.layout import Weights
    >>> kept = (PointMass("link cables", 9.1, (0.0, 0.0, 0.0)),)
    >>> kept_words(Layout("c", "m", 1, 1, 1, 1.0, 1, True, True, (), Weights(1.0, 1.0), reserve=kept))
    'link cables 9.1 kg'
    """
    return ", ".join(f"{one.name} {one.mass:.1f} kg" for one in layout.reserve)


def proven_with(layout: Layout) -> str:
    """What a proof holds with besides the hard rules; empty where nothing was kept."""
    return f" with {kept_mass(layout):.1f} kg kept for fittings and cables" if layout.reserve else ""


def kept_note(first: Layout, broke: Held, layout: Layout) -> str:
    """What was kept, what the best without it would have broken, and what it costs against that."""
    return (
        f"Kept {kept_mass(layout):.1f} kg for {FOR_IT}, as weighed on boxes made: loads, target and proof "
        f"are told with it. The best without it, {_size(first)}, would have had "
        f"{_broken(broke)}. Against that: {difference(first, layout)}."
    )


def nearest_note(car: Car, found: Held, most: float) -> str:
    """That no layout found meets the target with everything on, and by how much this one misses it."""
    target, share = car.target, found.share
    if target is None or share is None:
        raise ValueError("a target that was never asked cannot be missed")
    return (
        f"No layout found meets the target front share {target.front_share:.3f} +/- {target.tolerance:.3f} "
        f"with everything on: this one is nearest at {share:.4f}, {found.missed:.4f} beyond the tolerance. "
        f"Searches that kept up to {most:.1f} kg for {FOR_IT} found none."
    )


def never_holds(first: Layout, broke: Held, most: float, reasons: tuple[str, ...]) -> tuple[str, ...]:
    """Why nothing is built: no layout found holds the limits with everything on."""
    less = max(one.load - one.limit for one in broke.over)
    return (
        f"The best by boxes and modules alone, {_size(first)}, breaks the plate once everything is on: "
        f"{_broken(broke)}.",
        f"Searches that kept up to {most:.1f} kg for {FOR_IT} found none that holds: fit or carry "
        f"{less:.1f} kg less there, make boxes of thinner sheet, or take another module.",
        *(f"The last of them: {reason}" for reason in reasons),
    )


def _size(layout: Layout) -> str:
    return f"{counted(layout.count, 'module')}, {layout.energy:.4g} kWh"


def _broken(broke: Held) -> str:
    """All that is broken, with its figures."""
    return "; ".join(_each(broke))


def _each(broke: Held) -> Iterator[str]:
    for one in broke.over:
        over = f"{-one.left:.1f} over its {one.limit:g}"
        yield f"{one.what} {one.load:.1f} kg with everything on and carried, {over}"
    if broke.missed and broke.share is not None:
        yield f"front share {broke.share:.4f} with everything on, {broke.missed:.4f} beyond its tolerance"
