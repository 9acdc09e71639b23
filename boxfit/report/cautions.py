"""What can hurt somebody, or cost the car its papers: said with every result."""

from boxfit.bay import Bay
from boxfit.car import Car
from boxfit.layout import Layout, PlacedBox
from boxfit.module import Module
from boxfit.report.parts import boxes_of
from boxfit.standards.common_practice import ONE_PERSON
from boxfit.weight.box_mass import box_mass

CLASS_A_LIMIT = 60.0
"""Volts d.c. [V] up to which a circuit is voltage class A; above, up to 1500, class B.

Source: UNECE informal document GRSP-45-28 (slides, read); the 1500 from memory.
"""
INTO_A_BOOT = 40.0
"""A box heavier than this [kg] lifted into a boot has failed outright (common practice, no source)."""
ALWAYS = (
    "Fire and gas: keep the vent route away from the cabin, keep water and metal swarf out, and have a place "
    "outdoors for a module that smokes.",
    "Crash retention: a build reckons box, hold-downs, feet, bolts and body sheet by linear statics, without "
    "dynamics (retention.csv): a working aid, to be checked by a licensed engineer under local codes.",
    "Welding: never with modules in the box or the car; disconnect the car's electronics. Aluminium against "
    "steel corrodes: part them with paint, sealant or plastic.",
    "Measure again before cutting: a paper template and a mock-up prove the opening, not only the hole.",
    "A working aid, not an approval: local codes and licensed practice decide, and an engineer signs.",
)


def cautions(car: Car, module: Module, layout: Layout) -> tuple[str, ...]:
    """Every caution for this layout, the most pressing first."""
    return (
        voltage_caution(layout.series * module.voltage.full),
        *lifting_cautions(car, module, layout),
        *ALWAYS,
    )


def voltage_class(volts: float) -> str:
    """The voltage class of a d.c. circuit at its highest voltage [V]; for up to 1500 V.

    >>> voltage_class(60.0), voltage_class(60.1)
    ('A', 'B')
    """
    return "A" if volts <= CLASS_A_LIMIT else "B"


def voltage_caution(volts: float) -> str:
    """What to heed at the pack's highest voltage [V]."""
    if voltage_class(volts) == "A":
        return (
            f"Voltage: {volts:.1f} V full is class A (60 V d.c. or less), yet a short circuit burns: "
            "insulate tools, cover terminals, no rings or watches."
        )
    return (
        f"High voltage: {volts:.1f} V full is class B (over 60 V d.c.) and can kill. Trained people only; "
        "wear gloves rated for it, isolate, lock off, prove dead. A module cannot be switched off."
    )


def laden_mass(module: Module, bay: Bay, box: PlacedBox) -> float:
    """A box of the bay with its modules [kg], cover plate and fastenings apart."""
    floor = box.low[2]
    levels = tuple(tier.stands_on - floor for tier in box.tiers)
    empty = box_mass(box.outlines, box.high[2] - floor, levels, bay.box)
    return empty.mass + len(box.modules) * module.mass


def lifting_cautions(car: Car, module: Module, layout: Layout) -> tuple[str, ...]:
    """Which boxes one person may not lift, and which are too heavy to go into a boot by hand."""
    laden = {
        f"{bay.name} box {number}": laden_mass(module, bay, box)
        for bay in car.bays
        for number, box in enumerate(boxes_of(layout, bay), start=1)
    }
    too_heavy = {name: mass for name, mass in laden.items() if mass > INTO_A_BOOT}
    heavy = {name: mass for name, mass in laden.items() if ONE_PERSON < mass <= INTO_A_BOOT}
    found: list[str] = []
    if module.mass > ONE_PERSON:
        found.append(f"Lifting: one module is {module.mass:.1f} kg; one person lifts {ONE_PERSON:.0f} kg.")
    if too_heavy:
        found.append(
            f"Lifting: {_told(too_heavy)} with modules. Over {INTO_A_BOOT:.0f} kg, lifting into a boot by "
            "hand has failed outright: load the modules into the fixed box, or use crane and lifting points."
        )
    if heavy:
        found.append(
            f"Lifting: {_told(heavy)} with modules. One person lifts {ONE_PERSON:.0f} kg: lifting points and "
            "two people."
        )
    return tuple(found)


def _told(masses: dict[str, float]) -> str:
    return ", ".join(f"{name} is {mass:.1f} kg" for name, mass in masses.items())
