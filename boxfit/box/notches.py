"""What notches take off shelves and liner: closed forms, to be held against the solids."""

from boxfit.bay import Block, Vector
from boxfit.box.parts import Liner, Shelf
from boxfit.weight.box_mass import PartMass
from boxfit.weight.swept import plan_of, prism

TAKEN = 1e-3
"""Less than this [mm3] is no notch."""


def notched_shelf_mass(whole: PartMass, shelf: Shelf, low: Vector) -> PartMass:
    """A shelf's mass with the notches of its outline; centres count from `low` [mm], the box's low corner."""
    outline = tuple((x - low[0], y - low[1]) for x, y in shelf.plate.outline)
    levels = (shelf.plate.bottom - low[2], shelf.plate.top - low[2])
    volume, x, y, z = plan_of(outline).swept(prism(levels))
    if abs(volume - whole.volume) < TAKEN:
        return whole
    centre = (x / volume, y / volume, z / volume)
    return PartMass(whole.part, whole.mass * volume / whole.volume, centre, volume)


def notched_liner_mass(whole: PartMass, liner: Liner, low: Vector) -> PartMass:
    """The liner's mass less what reaches into its notches; centres count from `low` [mm]."""
    pieces = [(whole.volume, whole.centre)]
    for one in liner.sheets:
        sheet = Block(one.sheet.low, one.sheet.high)
        pieces += [_shared(sheet, notch, low) for notch in liner.notches]
    volume = sum(piece for piece, _ in pieces)
    x, y, z = (sum(piece * centre[axis] for piece, centre in pieces) / volume for axis in range(3))
    return PartMass(whole.part, whole.mass * volume / whole.volume, (x, y, z), volume)


def _shared(sheet: Block, notch: Block, low: Vector) -> tuple[float, Vector]:
    """Volume [mm3] that a notch takes, less than 0, and its middle [mm]."""
    spans = [
        (max(a, c), min(b, d))
        for a, b, c, d in zip(sheet.low, sheet.high, notch.low, notch.high, strict=True)
    ]
    x, y, z = (max(end - start, 0.0) for start, end in spans)
    a, b, c = ((start + end) / 2.0 - corner for (start, end), corner in zip(spans, low, strict=True))
    return -x * y * z, (a, b, c)
