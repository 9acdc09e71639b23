"""What cannot be built, and what can but not as the trade would have it: plain sentences."""

from boxfit.bay import BoxRules
from boxfit.box.printed import cannot_print
from boxfit.box.shop_rules import unsuited
from boxfit.box.stepped import cannot_step, millimetres
from boxfit.box_details import (
    LEAST_LEDGE,
    bend_radius,
    flange_radius,
    least_flange,
    least_ledge,
    ledge,
    takes_screws,
)
from boxfit.layout import PlacedBox
from boxfit.lid_details import gasket_too_wide, has_gasket, least_gasket_flange


def cannot_build(rules: BoxRules, boxes: tuple[PlacedBox, ...] = ()) -> tuple[str, ...]:
    """Why no box, or none of `boxes`, can be built by these rules, each naming its key; empty where it can.

    >>> rules = BoxRules("aluminium-5754", "folded", "rectangular", 0, 2, 22, 2, 10, 3, 4, 5, 1, 1)
    >>> cannot_build(rules)
    ('box.thickness: must be above 0 to build (got 0)',)
    """
    if not rules.asked:
        return ("[box]: missing, so no box can be built",)
    problems = [
        f"box.{key}: must be above 0 to build (got {value:g})"
        for key, value in (("thickness", rules.thickness), ("lid_thickness", rules.lid_thickness))
        if value <= 0.0
    ]
    radius = bend_radius(rules)
    if 0.0 < rules.flange <= radius:
        problems.append(f"box.flange: must be 0 or above box.bend_radius {radius:g} (got {rules.flange:g})")
    if has_gasket(rules) and rules.gasket_width > gasket_too_wide(rules) + 1e-6:
        problems.append(
            f"box.gasket_width: at most {millimetres(gasket_too_wide(rules))} between bend and lid screws "
            f"(got {rules.gasket_width:g}); box.flange = {least_gasket_flange(rules):g} would do"
        )
    stepped = [] if problems else [reason for box in boxes for reason in cannot_step(rules, box)]
    return (*problems, *_too_shallow(rules, boxes), *stepped, *cannot_print(rules, boxes))


def _too_shallow(rules: BoxRules, boxes: tuple[PlacedBox, ...]) -> tuple[str, ...]:
    """Boxes whose walls are lower than floor and flange's bend together; a floor with no room is square."""
    if rules.process != "folded" or not rules.flange:
        return ()
    needed = 2.0 * rules.thickness + flange_radius(rules)
    walls = [box.high[2] - rules.rim_below_top - box.low[2] for box in boxes]
    return tuple(
        f"box.bend_radius: floor and bend take {millimetres(needed)} of a wall {millimetres(wall)} high "
        f"(got {rules.bend_radius:g})"
        for wall in walls
        if wall < needed - 1e-6
    )


def box_notes(name: str, box: PlacedBox, rules: BoxRules) -> tuple[str, ...]:
    """What a maker should know of the box called `name`, its cover plate aside."""
    notes: list[str] = []
    if not takes_screws(rules):
        notes.append(
            f"{name}: no lid screws: a flange of {millimetres(rules.flange)} is too narrow for rivet-nut "
            f"holes; box.flange = {least_flange(rules):g} would do"
        )
    if len(box.tiers) > 1 and ledge(rules) is None:
        notes.append(f"{name}: the shelves have nothing to stand on: {_ledge_remedy(rules)}")
    notes += [f"{name}: {words}" for words in unsuited(rules)]
    return tuple(notes)


def _ledge_remedy(rules: BoxRules) -> str:
    """What would make room for the bar under a shelf."""
    remedies: list[str] = []
    if rules.liner + rules.gap / 2.0 < least_ledge(rules):
        remedies.append(f"box.gap = {2.0 * (least_ledge(rules) - rules.liner):g}")
    if rules.headroom < LEAST_LEDGE:
        remedies.append(f"box.headroom = {LEAST_LEDGE:g}")
    return f"{' and '.join(remedies)} or more would leave room for a ledge under them"
