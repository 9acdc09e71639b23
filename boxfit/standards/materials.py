"""Densities and strengths of the sheet and print materials a box may be made of, each with its source."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Material:
    """A material: density [kg/m3] and where the figure was taken from."""

    name: str
    density: float
    source: str


MATERIALS = {
    material.name: material
    for material in (
        Material("aluminium-5754", 2660.0, "EN 485-2 alloy 5754, density from memory"),
        Material("aluminium-5083", 2650.0, "trade page on alloy 5083 (density read there)"),
        Material("aluminium-5052", 2680.0, "EN 485-2 alloy 5052, density from memory"),
        Material("aluminium-6082", 2700.0, "trade sheet EN AW-6082 (density read there)"),
        Material("aluminium-5005", 2700.0, "EN 485-2 alloy 5005 for anodised faces, density from memory"),
        Material("steel-s235", 7850.0, "EN 10025-2 S235JR, density from memory"),
        Material("steel-dc01", 7850.0, "EN 10130 DC01, density from memory"),
        Material("stainless-1.4301", 7900.0, "trade sheet 1.4301 (sources differ: 7.9 and 8.0 g/cm3)"),
        Material("abs", 1050.0, "trade page on plastics: 1.02 to 1.08 g/cm3"),
        Material("petg", 1270.0, "trade page on plastics: 1.26 to 1.28 g/cm3"),
        Material("pla", 1250.0, "print shop's page: 1.25 g/cm3"),
        Material("hdpe", 950.0, "trade page on plastics: 0.940 to 0.965 g/cm3"),
        Material("epdm-foam", 225.0, "closed-cell EPDM foam of 150 kg/m3 pressed to two thirds, from memory"),
    )
}

GASKET = MATERIALS["epdm-foam"]
"""What gaskets are made of; its density is that of the gasket under the lid."""

PLASTICS = frozenset({"abs", "petg", "pla", "hdpe"})
"""Those of the box materials that are printed and not folded; the others are metals."""

LINER = MATERIALS["hdpe"]
"""What the liner is taken to be made of: sheet polyethylene (common practice, no source)."""

BOX_MATERIALS = tuple(name for name in MATERIALS if name != GASKET.name)
"""What boxes and their cover plates may be made of."""
