"""Every borrowed figure with its source and how it was come by: what an inspector is to look up again.

Figures of tables that name their own source are told from those tables; the others are listed here, and a
test holds that no standard named anywhere in the package is left out.
"""

from dataclasses import dataclass

from boxfit.standards.load_factors import RULE_SETS, LoadFactors
from boxfit.standards.materials import MATERIALS
from boxfit.standards.strengths import STRENGTHS

READ, MEMORY, PRACTICE = "read", "from memory", "common practice"


@dataclass(frozen=True)
class Source:
    """What a figure is for, where it was taken from, and how: read, from memory, or common practice."""

    what: str
    source: str
    status: str


def status_of(words: str) -> str:
    """How a source that is told in words was come by.

    >>> status_of("EN 485-2 alloy 5754, density from memory"), status_of("print shop's page: 1.25 g/cm3")
    ('from memory', 'read')
    """
    if MEMORY in words:
        return MEMORY
    return PRACTICE if PRACTICE in words else READ


LISTED = (
    Source("axle loads, lever rule", "statics of a beam on two supports, textbook", READ),
    Source(
        "height of mass from a raised axle",
        "an open textbook and a maker of scales, two forms that agree; ISO 10392 itself was not read",
        READ,
    ),
    Source("one scale may be 1 kg out", "common practice, no source", PRACTICE),
    Source("axes and signs of the car", "ISO 8855", MEMORY),
    Source(
        "bolt strengths, classes 8.8 and 10.9",
        "ISO 898-1; dealers' tables of loads agree within 0.6 %",
        MEMORY,
    ),
    Source("coarse pitches; core diameter", "ISO 261; ISO 724", MEMORY),
    Source(
        "bolts in shear and tension, partial factor 1.25", "EN 1993-1-8 table 3.4, engineers' pages", READ
    ),
    Source(
        "bearing, tear-out, pull-through", "EN 1993-1-8 table 3.4; thin sheet EN 1993-1-3 table 8.4", MEMORY
    ),
    Source("welds", "EN 1993-1-8 4.5.3.3; EN 1999-1-1 8.6.3", MEMORY),
    Source(
        "softened zone beside a weld", "EN 1999-1-1 table 3.2a; table 3.2b of a public copy was read", MEMORY
    ),
    Source("bent bars and legs, plastic section", "EN 1993-1-1 6.2.5; textbook", MEMORY),
    Source(
        "sheet that bends with a stiffening bar; stitches", "EN 1993-1-5 9.1; EN 1993-1-8 4.3.2.2", MEMORY
    ),
    Source("throat of a fillet 0.7 t; thread engaged 0.75", "common practice, no source", PRACTICE),
    Source("plates, all edges supported", "Roark table 11.4 case 1a", READ),
    Source("plates, all edges clamped", "Roark table 11.4 case 8", MEMORY),
    Source("plates past small sag", "Timoshenko and Woinowsky-Krieger, cylindrical bending", MEMORY),
    Source("yield lines", "Johansen's yield line theory", MEMORY),
    Source("shared load of fixings", "rivet group, rigid body on equal springs, handbooks", MEMORY),
    Source("standard gravity 9.81 m/s2", "textbook", READ),
    Source(
        "shock corridors by vehicle category",
        "UNECE R100; the 28 g of cars read at a test house's page",
        MEMORY,
    ),
    Source(
        "twenty times a battery's weight",
        "NCOP14 (Australia), read in a workshop's summary",
        "read second hand",
    ),
    Source("voltage classes, 60 V direct", "UNECE R100 slides (GRSP-45-28); 1500 V from memory", READ),
    Source("isolation 100 and 500 ohm for each volt", "UNECE R100 5.1.3.1 and 5.1.3.2", READ),
    Source("bonds below 0.1 ohm", "draft AIS-156", READ),
    Source("orange cable", "UNECE R100", READ),
    Source("creepage", "IEC 60664-1 table F.4, a maker's page reporting DIN EN 60664-1", READ),
    Source("clearance; reinforced twice basic; impulse 2500 V", "IEC 60664-1 table F.2", MEMORY),
    Source("resistance of conductors", "IEC 60228 class 5, three makers' pages", READ),
    Source("rise of copper's resistance", "IEC 60028", MEMORY),
    Source("rating of cable", "IS 9857 welding cable at 100 % duty, one maker's page", READ),
    Source("glands and their holes", "EN 62444; across, length and mass: common practice", MEMORY),
    Source("cable's outside, bend of six diameters", "common practice, no source", PRACTICE),
    Source("signs of the diagram", "IEC 60617", MEMORY),
    Source("warning sign W012, shape and colours", "ISO 7010; ISO 3864", MEMORY),
    Source("torque", "no figure held; VDI 2230 is what an engineer goes by", MEMORY),
    Source("developed length, K", "DIN 6935, German trade tables", READ),
    Source("bend allowance", "Machinery's Handbook", READ),
    Source("least inside radius, aluminium", "EN 485-2, a dealer's copy", READ),
    Source("least inside radius, steel", "EN 10025-2, a galvaniser's guide; DIN 6935, trade tables", READ),
    Source("clearance holes", "ISO 273, trade tables; M4 and M5 from memory", READ),
    Source("edges before welding", "ISO 9692-1 steel, ISO 9692-3 aluminium", MEMORY),
    Source("tolerances of parts and welds", "ISO 2768-m; ISO 13920-B", MEMORY),
    Source(
        "screws, washers, nuts",
        "ISO 4762, ISO 7380, ISO 7089, ISO 7092, ISO 7093, ISO 4035, DIN 1587",
        MEMORY,
    ),
    Source("drawing rules", "ISO 128, ISO 128-50, ISO 129-1, ISO 5455, ISO 5456-2", MEMORY),
    Source("sheets of paper and title block", "ISO 216, ISO 5457, ISO 7200", MEMORY),
    Source("solids on file", "ISO 10303-21, ISO 10303-41", MEMORY),
    Source("pouch cells grow 6 % along their stack", "common practice, no source", PRACTICE),
    Source(
        "a box may be 20 K warmer; cooling asked above 0.5 C, needed above 1 C",
        "common practice, no source",
        PRACTICE,
    ),
    Source(
        "heat of a module 3 % at one C; still air 6 W/(m2 K)", "from memory; the module's maker knows", MEMORY
    ),
    Source("liner conducts 0.45 W/(m K)", "sheet polyethylene, 0.4 to 0.5", MEMORY),
    Source("what is usual of a module's size and mass", "common practice, no source", PRACTICE),
    Source(
        "lifting: lugs bear 4 times their share",
        "directive 2006/42/EC, annex I 4.1.2.5, working coefficient of metal parts",
        MEMORY,
    ),
    Source(
        "slings at most 15 degrees off upright; pin 12, bow 16 mm", "common practice, no source", PRACTICE
    ),
    Source("lifting: two of four lugs carry", "a builders' training manual on slings", READ),
    Source("pin in a lug", "EN 1993-1-8 tables 3.9 and 3.10, public copies", READ),
    Source("one person lifts 25 kg; 40 kg into a boot fails", "common practice, no source", PRACTICE),
    Source("allowances, gap, liner, headroom where not told", "common practice, no source", PRACTICE),
    Source("tolerances of cutting, folding, welding, printing", "common practice, no source", PRACTICE),
    Source("breather, drain, disconnect, lugs, housings: sizes", "common practice, no source", PRACTICE),
    Source("body sheet taken as DC01 where not known", "common practice, no source", PRACTICE),
    Source("strips that modules are held on, 12 mm", "common practice, no source", PRACTICE),
)


def sources(materials: tuple[str, ...] | None = None, rules: LoadFactors | None = None) -> tuple[Source, ...]:
    """Every source; of materials and rule sets only those named, all where none are."""
    names = tuple(MATERIALS) if materials is None else materials
    sets = tuple(RULE_SETS.values()) if rules is None else (rules,)
    densities = (
        Source(f"density of {one.name}, {one.density:g} kg/m3", one.source, status_of(one.source))
        for one in (MATERIALS[name] for name in names)
    )
    strengths = (
        Source(
            f"strength of {one.name}: {one.yielding:g} and {one.ultimate:g} MPa",
            one.source,
            status_of(one.source),
        )
        for one in STRENGTHS.values()
        if one.name in names
    )
    factors = (
        Source(f"rule set {one.name}", f"{one.source}; {one.remark}".rstrip("; "), one.status) for one in sets
    )
    return (*factors, *densities, *strengths, *LISTED)
