"""Strips as they are cut from sheet: developed, with holes and bend lines; equal ones once, with how many.

They are seen from the inside of their folds, so that every fold is up.
"""

from dataclasses import replace
from math import pi, tan

from boxfit.box.fitting import DIRECTIONS, Strip, StripHole
from boxfit.box.strip_legs import Leg, legs_of
from boxfit.box_blank import Fold, fold_of
from boxfit.sheet.flat import Bend, Contour, Corner, Flat, Hole, straight
from boxfit.workshop import FoldShop

QUARTER = tan(pi / 8.0)
"""The bulge of a quarter turn to the left [-]."""


def strip_flat(strip: Strip, shop: FoldShop) -> Flat:
    """One strip seen from the inside of its folds: its width across, its legs one by one upwards [mm]."""
    fold = fold_of(strip.thickness, strip.radius, shop)
    legs = legs_of(strip)
    begins: list[float] = []
    reached = 0.0
    for leg in legs:
        begins.append(reached)
        reached += leg.straight + fold.allowance
    wide, high = round(strip.width, 6), round(reached - fold.allowance, 6)
    return Flat(
        name=strip.name,
        material=strip.material,
        thickness=strip.thickness,
        contours=(_contour(wide, high, strip.rounded),),
        formed=_formed(strip),
        holes=tuple(
            sorted((_hole(strip, hole, legs, begins) for hole in strip.holes), key=lambda one: one.at)
        ),
        bends=tuple(_bend(strip, fold, legs, place, begins[place + 1]) for place in range(len(legs) - 1)),
        notes=strip.notes,
        bar=strip.bar,
    )


def _contour(wide: float, high: float, radius: float) -> Contour:
    """The blank's edge, its upper corners rounded."""
    if not radius:
        return straight([(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)])
    return (
        Corner(0.0, 0.0),
        Corner(wide, 0.0),
        Corner(wide, high - radius, QUARTER),
        Corner(wide - radius, high),
        Corner(radius, high, QUARTER),
        Corner(0.0, high - radius),
    )


def strip_flats(strips: tuple[Strip, ...], shop: FoldShop) -> tuple[Flat, ...]:
    """Every strip; those cut alike are one flat, named after the first, its notes naming the others."""
    alike: dict[Flat, list[str]] = {}
    for strip in strips:
        alike.setdefault(replace(strip_flat(strip, shop), name=strip.kind), []).append(strip.name)
    return tuple(_named(flat, names) for flat, names in alike.items())


def _named(flat: Flat, names: list[str]) -> Flat:
    """A flat for so many strips."""
    first, *others = names
    notes = (*flat.notes, f"also {', '.join(others)}") if others else flat.notes
    return replace(flat, name=first, notes=notes, quantity=len(names))


def _formed(strip: Strip) -> tuple[float, float, float]:
    """Outside dimensions once folded: width, along the first leg, and across it."""
    out = max(length for _, length in strip.legs[::2])
    across = strip.legs[1][1] if len(strip.legs) > 1 else strip.thickness
    return (round(strip.width, 6), round(out, 6), round(across, 6))


def _mirrored(strip: Strip, leg: Leg) -> bool:
    """Whether `along` runs to the left where a leg is seen from its inside and runs upwards."""
    (a, b, c), (d, e, f), (x, y, z) = DIRECTIONS[strip.along], leg.way, leg.inwards
    turn = (b * f - c * e) * x + (c * d - a * f) * y + (a * e - b * d) * z
    return turn < 0.0


def _hole(strip: Strip, hole: StripHole, legs: tuple[Leg, ...], begins: list[float]) -> Hole:
    """A hole where it is drilled before folding."""
    leg, start = legs[hole.leg], begins[hole.leg]
    across = strip.width - hole.along if _mirrored(strip, leg) else hole.along
    # rounded, so that strips cut alike are found alike
    return Hole((round(across, 6), round(start + hole.across - leg.before, 6)), hole.diameter)


def _bend(strip: Strip, fold: Fold, legs: tuple[Leg, ...], place: int, ends: float) -> Bend:
    """The fold after a leg; the flat of the next begins at `ends` [mm]."""
    middle, wide = round(ends - fold.allowance / 2.0, 6), round(strip.width, 6)
    leg = min(legs[place].length, legs[place + 1].length) - strip.thickness
    return Bend(
        (0.0, middle),
        (wide, middle),
        True,
        90.0,
        strip.radius,
        fold.k,
        fold.allowance,
        round(leg, 6),
        fold.by_table,
    )
