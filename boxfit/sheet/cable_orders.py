"""What the wiring asks to be bought: orange cable by section, and links inside the boxes."""

from collections.abc import Iterator
from itertools import pairwise
from math import ceil

from boxfit.box.wiring.figures import Electrics
from boxfit.sheet.order_list import Order
from boxfit.standards.conductors import conductor_for

SPARE = 1.1
"""A tenth more than drawn: ends, and ways that are found in the car (common practice, no source)."""


def cable_orders(found: Electrics) -> Iterator[Order]:
    """Link cable in half metres, its ends, and links from module to module."""
    wiring = found.wiring
    cable, routes = wiring.cable, wiring.routed
    if routes:
        length = sum(route.length for _, route in routes) * SPARE / 1000.0
        about = f"orange, shielded, {cable.section:g} mm2 fine-stranded copper, {cable.across:g} mm across"
        words = f"{len(routes)} cables, a tenth spare: measure with a rope before ordering"
        yield Order("link cable", about, f"{ceil(2.0 * length) / 2.0:.1f}", "m", words)
        about = f"{cable.section:g} mm2, crimped by the maker's tool, insulated"
        yield Order("cable lug", about, str(2 * len(routes)), "pc", "link cables")
    pack = wiring.pack
    inside = sum(
        pack.box_of(one) == pack.box_of(other) for string in pack.strings for one, other in pairwise(string)
    )
    if inside:
        given = found.amperes
        conductor = conductor_for(given.module_continuous) if given else None
        size = f"at least {conductor.section:g} mm2, or " if conductor else ""
        about = f"insulated, {size}as the module's maker says"
        yield Order("module link", about, str(inside), "pc", "from module to module inside the boxes")
