"""What a shop would not make as a box's rules ask, whatever the box: told by `check`, refused by `build`."""

from collections.abc import Iterator
from dataclasses import dataclass

from boxfit.bay import BoxRules
from boxfit.standards.bending import least_inside_radius
from boxfit.standards.materials import MATERIALS, PLASTICS

CLOSE = 1e-9


@dataclass(frozen=True)
class Fault:
    """A key of [box] [mm] that a shop cannot work with: the rule, what was found, and what would do."""

    key: str
    rule: str
    got: str
    remedy: str

    @property
    def text(self) -> str:
        """As a sentence.

        >>> Fault("box.flange", "must be at least 10", "9", "box.flange = 10").text
        'box.flange: must be at least 10 (got 9); try: box.flange = 10'
        """
        return f"{self.key}: {self.rule} (got {self.got}); try: {self.remedy}"


def shop_faults(rules: BoxRules) -> tuple[Fault, ...]:
    """What the shop that folds or prints cannot make; nothing where no [box] is asked for.

    Least inside radii are those of EN 485-2, EN 10025-2 and DIN 6935 (standards.bending).
    """
    if not rules.asked or rules.thickness <= 0.0:
        return ()
    if rules.process == "printed":
        return tuple(_thin(rules))
    if rules.process == "folded":
        return (*_tight(rules), *_short(rules))
    return ()


def least_fold_leg(rules: BoxRules) -> float:
    """The shortest flange [mm] the brake holds: the shop's own, or 3 t + r (common practice, no source).

    It is measured, as `box.flange` is, from the inside of the other leg.
    """
    own = rules.fold_shop.least_flange
    return 3.0 * rules.thickness + rules.bend_radius if own is None else own


def unsuited(rules: BoxRules) -> tuple[str, ...]:
    """What is odd about the material for the way of making, as sentences that name the key.

    >>> from dataclasses import replace
    >>> from boxfit.standards.common_practice import USUAL_BOX
    >>> unsuited(replace(USUAL_BOX, process="printed"))
    ('box.material: aluminium-5754 is seldom printed; try "petg" or "abs", or box.process = "folded"',)
    """
    plastic = rules.material in PLASTICS
    if rules.process == "printed" and not plastic:
        words = f'{rules.material} is seldom printed; try "petg" or "abs", or box.process = "folded"'
    elif rules.process == "folded" and plastic:
        words = f'{rules.material} keeps no cold fold; try "aluminium-5754", or box.process = "printed"'
    elif rules.process == "welded" and rules.material in ("pla", "petg"):
        words = f'{rules.material} is seldom welded; try "hdpe" or a metal, or box.process = "printed"'
    else:
        return ()
    return (f"box.material: {words}",)


def _tight(rules: BoxRules) -> Iterator[Fault]:
    """A radius inside the fold that the alloy does not bear without cracking."""
    least = least_inside_radius(rules.material, rules.thickness)
    if least is None or rules.bend_radius >= least.radius - CLOSE:
        return
    sheet = f"{rules.material} {rules.thickness:g} mm thick"
    yield Fault(
        "box.bend_radius",
        f"must not be below {least.radius:g}, the tightest for {sheet} ({least.source})",
        f"{rules.bend_radius:g}",
        f"box.bend_radius = {least.radius:g}{_others(rules)}",
    )


def _others(rules: BoxRules) -> str:
    """The sheets that bear the radius, as a second remedy."""
    tables = ((name, least_inside_radius(name, rules.thickness)) for name in MATERIALS)
    bear = [f'"{name}"' for name, least in tables if least and least.radius <= rules.bend_radius + CLOSE]
    return f", or box.material = {' or '.join(bear)}" if bear else ""


def _short(rules: BoxRules) -> Iterator[Fault]:
    """A flange that slips off the brake's die."""
    least = least_fold_leg(rules)
    if rules.flange <= 0.0 or rules.flange >= least - CLOSE:
        return
    own = rules.fold_shop.least_flange is not None
    whose = "fold_shop.least_flange" if own else "3 t + r, the shortest that a brake holds"
    yield Fault(
        "box.flange",
        f"must be 0 or not below {least:g} ({whose})",
        f"{rules.flange:g}",
        f"box.flange = {least:g}",
    )


def _thin(rules: BoxRules) -> Iterator[Fault]:
    """Walls and lid too thin to print."""
    least = rules.print_shop.least_wall
    for key, value in (("thickness", rules.thickness), ("lid_thickness", rules.lid_thickness)):
        if 0.0 < value < least - CLOSE:
            rule = f"must not be below print_shop.least_wall {least:g} to be printed"
            yield Fault(f"box.{key}", rule, f"{value:g}", f"box.{key} = {least:g}")
