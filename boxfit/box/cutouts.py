"""Cutouts of a tray: which wall or floor each goes through, its extent along that face, what it weighs."""

from dataclasses import replace
from math import pi

from boxfit.bay import Point, Vector
from boxfit.box.fitting import DIRECTIONS, Cutout
from boxfit.box.parts import Plate, StepFloor, Tray
from boxfit.box_shape import Rectangle
from boxfit.weight.box_mass import PartMass

CLOSE = 1e-3
"""A cutout lies on the face that is nearer than this [mm]."""


def cutout_area(cutout: Cutout) -> float:
    """What it takes out of the face [mm2].

    >>> cutout_area(Cutout("sight glass", "front", (0.0, 0.0, 0.0), size=(30.0, 20.0)))
    600.0
    """
    if cutout.diameter:
        return pi / 4.0 * cutout.diameter**2
    wide, high = cutout.size
    return wide * high - (4.0 - pi) * cutout.corner**2


def cutouts_in_wall(tray: Tray, band: Plate, start: Point, end: Point) -> tuple[Cutout, ...]:
    """Those through the wall of a band whose outside runs counter-clockwise from `start` to `end` [mm]."""
    axis = 0 if abs(start[0] - end[0]) < abs(start[1] - end[1]) else 1
    # counter-clockwise: a wall that runs to the left faces front, one that runs forwards faces right
    outwards = 1.0 if (end[1] > start[1] if axis == 0 else end[0] < start[0]) else -1.0
    low, high = sorted((start[1 - axis], end[1 - axis]))
    return tuple(
        cutout
        for cutout in tray.cutouts
        if DIRECTIONS[cutout.looks][axis] == outwards
        and abs(cutout.at[axis] - start[axis]) < CLOSE
        and low < cutout.at[1 - axis] < high
        and band.bottom - CLOSE < cutout.at[2] < band.top
    )


def cutouts_in_floor(tray: Tray, floor: StepFloor | None = None) -> tuple[Cutout, ...]:
    """Those through the tray's floor, or through a step floor."""
    bottom = floor.plate.bottom if floor else tray.bands[0].bottom
    return tuple(one for one in tray.cutouts if one.looks == "down" and abs(one.at[2] - bottom) < CLOSE)


def cutouts_astray(tray: Tray) -> tuple[Cutout, ...]:
    """Those that lie on no wall and no floor."""
    found = [*cutouts_in_floor(tray)]
    for floor in tray.step_floors:
        found += cutouts_in_floor(tray, floor)
    for band in tray.bands:
        for start, end in zip(band.outline, band.outline[1:] + band.outline[:1], strict=True):
            found += cutouts_in_wall(tray, band, start, end)
    return tuple(one for one in tray.cutouts if one not in found)


def extent_on_face(cutout: Cutout) -> Rectangle:
    """From where to where [mm] it reaches along its face and up, about its middle; x and y in a floor.

    >>> extent_on_face(Cutout("drain", "down", (5.0, 5.0, 0.0), diameter=12.0))
    ((-6.0, -6.0), (6.0, 6.0))
    """
    wide, high = (cutout.diameter, cutout.diameter) if cutout.diameter else cutout.size
    return ((-wide / 2.0, -high / 2.0), (wide / 2.0, high / 2.0))


def middle_in_sheet(cutout: Cutout, thickness: float) -> Vector:
    """The middle of what is cut out [mm]: half a thickness in from the outside."""
    x, y, z = (
        at - way * thickness / 2.0 for at, way in zip(cutout.at, DIRECTIONS[cutout.looks], strict=True)
    )
    return (x, y, z)


def less_cutouts(whole: PartMass, tray: Tray, low: Vector) -> PartMass:
    """A tray's mass, its cutouts taken out; centres count from `low` [mm], the low corner of its box."""
    if not tray.cutouts:
        return whole
    density = whole.mass / whole.volume
    pieces = [(whole.volume, whole.centre)]
    for cutout in tray.cutouts:
        x, y, z = (
            at - from_low for at, from_low in zip(middle_in_sheet(cutout, tray.thickness), low, strict=True)
        )
        pieces.append((-cutout_area(cutout) * tray.thickness, (x, y, z)))
    volume = sum(piece for piece, _ in pieces)
    x, y, z = (sum(piece * at[axis] for piece, at in pieces) / volume for axis in range(3))
    return replace(whole, mass=volume * density, volume=volume, centre=(x, y, z))
