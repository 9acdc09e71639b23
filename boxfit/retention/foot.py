"""A foot with its bolt, its legs, what fixes it to the wall, and the wall and body sheet there. [N, mm, MPa]

Forces come in three parts: `pull` off the body along the bolt, `aside` along the folds of the foot, and
`towards` along the leg on the body, to the wall of the box or away from it.
"""

from dataclasses import dataclass
from math import hypot

from boxfit.bay import Vector
from boxfit.standards.strengths import PARTIAL_YIELD, Strength

Part = tuple[float, float, float]
"""Pull (above 0 off the body), aside and towards [N]."""


@dataclass(frozen=True)
class Doubler:
    """A plate between foot and wall, welded all round: thickness, sides along the leg and across [mm].

    Its middle is that of the foot's welds, or `off` [mm] from it, along the leg.
    """

    thickness: float
    length: float
    width: float
    off: float = 0.0


@dataclass(frozen=True)
class OnWall:
    """How a foot is fixed to its wall: welded along both sides, or by `screws` of M6 so far `apart`.

    `length` [mm] is that of the leg beyond its bend; `size` [mm] are the sides of the wall that bends,
    `thickness` and `metal` the wall's own.
    """

    length: float
    size: tuple[float, float]
    thickness: float
    metal: Strength
    screws: int = 0
    apart: float = 0.0
    from_end: float = 0.0
    doubler: Doubler | None = None

    @property
    def under_weld(self) -> float:
        """Thickness [mm] of what the foot is welded to."""
        return self.doubler.thickness if self.doubler else self.thickness

    @property
    def bending(self) -> float:
        """The one sheet [mm] whose plastic moment is that of wall and doubler together.

        They are welded round the edge alone and slide on each other, so that each bends by itself.

        >>> from boxfit.standards.strengths import STRENGTHS
        >>> metal = STRENGTHS["aluminium-5754"]
        >>> OnWall(45.0, (300.0, 200.0), 3.0, metal, doubler=Doubler(4.0, 90.0, 100.0)).bending
        5.0
        """
        return hypot(self.thickness, self.doubler.thickness) if self.doubler else self.thickness


@dataclass(frozen=True)
class Body:
    """The body sheet under a foot, and the plate behind it: its side and thickness, 0 where there is none."""

    thickness: float
    metal: Strength
    plate: float = 0.0
    plate_thickness: float = 0.0
    plate_metal: Strength | None = None


@dataclass(frozen=True)
class Foot:
    """One foot of a box, an angle or a trough, folded of one strip.

    `at` [mm] is the middle of its bolt; `axis`, `aside` and `towards` are unit vectors of the three parts of
    a force. `bolt` [mm] is its thread, of class `grade`, its `washer` [mm] across. `arm` is from the bolt to
    the bend beside it, less 0.8 of its radius, and `edge` from there to the free end. `off` is from the
    bolt to the wall: along `towards` for an angle, along the bolt for a trough. `start` is from the bend
    next to the wall to where welds begin, `along` from the bolt to their middle, the way the leg on the wall
    runs.
    """

    name: str
    at: Vector
    axis: Vector
    aside: Vector
    towards: Vector
    bolt: float
    grade: str
    washer: float
    hole: float
    metal: Strength
    thickness: float
    width: float
    arm: float
    edge: float
    trough: bool
    off: float
    start: float
    along: float
    wall: OnWall
    body: Body

    @property
    def design(self) -> float:
        """Yield strength for design [MPa], softened by the weld where it is welded."""
        softened = self.metal.yielding if self.wall.screws else self.metal.yielding_softened
        return softened / PARTIAL_YIELD

    def parts(self, force: Vector) -> Part:
        """A force of the box on the foot in its three parts [N]; pull keeps its sign, the others do not."""
        pull, aside, towards = (
            sum(one * two for one, two in zip(force, way, strict=True))
            for way in (self.axis, self.aside, self.towards)
        )
        return (pull, abs(aside), abs(towards))

    def on_wall(self, part: Part) -> tuple[float, float, float]:
        """The same seen from the wall [N]: square off it, along the leg on it, and aside."""
        pull, aside, towards = part
        return (abs(pull), towards, aside) if self.trough else (towards, abs(pull), aside)

    def moment(self, part: Part) -> float:
        """What turns the leg on the wall off it, about the middle of its fixing [N mm].

        An angle pushed onto the body bears on it beside its bend and turns nothing.
        """
        square, along, _ = self.on_wall(part)
        pushed = not self.trough and part[0] < 0.0
        return square * self.along + (0.0 if pushed else along * self.off)

    def sideways(self, part: Part) -> tuple[float, float]:
        """What twists the fixing in the wall's plane, and what tips it about the leg on it [N mm]."""
        return (part[1] * self.along, part[1] * self.off)


def across(part: Part) -> float:
    """What shears the bolt [N].

    >>> across((100.0, 30.0, 40.0))
    50.0
    """
    return hypot(part[1], part[2])
