"""What hold-downs are made of: bars, the plates at their ends, tapped blocks; none has its name yet."""

from boxfit.bay import Vector
from boxfit.box.fitting import Looks, Strip, StripHole
from boxfit.box.hold_down_place import Span, placed
from boxfit.box.hold_down_section import BLOCK, HOLE, PAD, TAPPED, Section

BLOCK_NOTE = (
    "flat bar, tapped M6 right through; welded to the wall on three sides, the liner notched round it"
)
PLATE_NOTE = "welded square to an end of a hold-down"
PAD_NOTE = f"cellular rubber {PAD:g} mm glued underneath; put in from above once its tier is full"
_LOOKS: tuple[tuple[Looks, Looks], ...] = (("rear", "front"), ("right", "left"))


def looks(axis: int, sign: int) -> Looks:
    """The word for a way along x or y.

    >>> looks(1, -1)
    'right'
    """
    return _LOOKS[axis][sign > 0]


def folded(
    section: Section,
    across: int,
    start: Vector,
    width: float,
    legs: tuple[tuple[Looks, float], ...],
    holes: tuple[StripHole, ...],
) -> Strip:
    """A bar; `start` is given as across, along and up [mm]."""
    return Strip(
        kind="hold-down",
        name="",
        material=section.material,
        thickness=section.thickness,
        radius=section.radius,
        start=placed(across, start),
        along=looks(1 - across, 1),
        width=width,
        legs=legs,
        inwards=legs[1][0],
        holes=holes,
        notes=(PAD_NOTE,),
    )


def plate(section: Section, ways: tuple[int, int], corner: Vector, size: Span, screw: Span) -> Strip:
    """What is welded to an end of a bar; `ways` are the axis across the bar and the way into it.

    `corner` is given as across, along and up, `size` and `screw` across and up [mm].
    """
    across, sign = ways
    return Strip(
        kind="hold-down bracket",
        name="",
        material=section.material,
        thickness=section.thickness,
        radius=section.radius,
        start=placed(across, corner),
        along=looks(across, 1),
        width=size[0],
        legs=(("up", size[1]),),
        inwards=looks(1 - across, sign),
        holes=(StripHole(0, screw[0] - corner[0], screw[1] - corner[2], HOLE),),
        notes=(PLATE_NOTE,),
    )


def block(section: Section, wall: tuple[int, int, float], at: float, screw: Span) -> Strip:
    """A tapped block, its middle `at` along a wall, which has an axis, a way inwards and a place [mm].

    `screw` is along the wall and up [mm].
    """
    axis, sign, level = wall
    length, below, above = BLOCK
    corner = (level, at - length / 2.0, screw[1] - below)
    return Strip(
        kind="hold-down bracket",
        name="",
        material=section.block_material,
        thickness=section.block,
        radius=0.0,
        start=placed(axis, corner),
        along=looks(1 - axis, 1),
        width=length,
        legs=(("up", below + above),),
        inwards=looks(axis, sign),
        holes=(StripHole(0, screw[0] - corner[1], below, TAPPED),),
        notes=(BLOCK_NOTE,),
        bar=True,
    )
