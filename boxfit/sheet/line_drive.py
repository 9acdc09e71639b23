"""The drive's side of a single-line diagram: motor, inverter, charger, isolation monitor, contactors. [mm]"""

from collections.abc import Iterator

from boxfit.bay import Point
from boxfit.box.wiring.figures import Electrics
from boxfit.sheet.drawing.letters import cut_to
from boxfit.sheet.drawing.marks import Circle, Line, Mark, Text
from boxfit.sheet.symbols import (
    IN_LINE,
    SIDE,
    chassis,
    contactor,
    converter,
    fuse,
    joined,
    monitor,
    motor,
    resistor,
)

DRIVE = 180.0
"""How wide it is."""
WORDS = 1.9
INVERTER, CHARGER, MONITOR = 36.0, 68.0, 96.0
"""Where they stand from the left."""
BOUNDARY, BEFORE, K1, AFTER, F1 = 116.0, 121.0, 137.0, 153.0, 164.0
"""The contactors' boundary, the joint before the contactor, itself, the joint after it, the main fuse."""
BRANCH = 11.0
"""How far above the line the branch for slow charging runs."""


def drive_marks(found: Electrics, left: float, lines: tuple[float, float]) -> Iterator[Mark]:
    """All of it from a left edge on, between the minus and the plus line."""
    minus, plus = lines
    middle = (minus + plus) / 2.0
    yield from _fed(left, lines, middle)
    yield from _monitor(left + MONITOR, lines, middle)
    yield from _contactors(left, lines)
    yield from _names(found, left, lines, middle)


def _fed(left: float, lines: tuple[float, float], middle: float) -> Iterator[Mark]:
    """Inverter with its motor, and charger with the mains."""
    minus, plus = lines
    for x, words in ((left + INVERTER, ("=", "~")), (left + CHARGER, ("~", "="))):
        yield from converter((x, middle), *words)
        yield Line((x, plus), (x, middle + SIDE), "visible")
        yield Line((x, minus), (x, middle - SIDE), "visible")
    yield from (joined((left + CHARGER, plus)), joined((left + CHARGER, minus)))
    yield from motor((left + 10.0, middle))
    yield Line((left + 17.0, middle), (left + INVERTER - SIDE, middle), "visible")
    end = left + CHARGER - SIDE
    yield Line((end - 6.0, middle), (end, middle), "visible")
    yield Circle((end - 6.7, middle), 0.7, "visible")
    yield from (Line((left + INVERTER, level), (left + BEFORE, level), "visible") for level in lines)


def _monitor(x: float, lines: tuple[float, float], middle: float) -> Iterator[Mark]:
    """The isolation monitor between both lines and the body."""
    minus, plus = lines
    yield from monitor((x, middle))
    for level, side in ((plus, 1.0), (minus, -1.0)):
        yield Line((x, level), (x, middle + side * SIDE), "visible")
        yield joined((x, level))
    foot = (x + SIDE + 4.0, middle - SIDE - 3.0)
    yield Line((x + SIDE, middle), (foot[0], middle), "visible")
    yield Line((foot[0], middle), foot, "visible")
    yield from chassis(foot)


def _contactors(left: float, lines: tuple[float, float]) -> Iterator[Mark]:
    """Contactors in both poles, slow charging beside the one in plus, the main fuse, and their boundary."""
    minus, plus = lines
    for level in lines:
        yield from contactor((left + K1, level))
        yield Line((left + BEFORE, level), (left + K1 - IN_LINE, level), "visible")
    yield Line((left + K1 + IN_LINE, plus), (left + F1 - IN_LINE, plus), "visible")
    yield Line((left + K1 + IN_LINE, minus), (left + DRIVE, minus), "visible")
    yield from fuse((left + F1, plus), False)
    yield Line((left + F1 + IN_LINE, plus), (left + DRIVE, plus), "visible")
    above = plus + BRANCH
    first, second = left + K1 - 8.0, left + K1 + 7.0
    yield from contactor((first, above))
    yield from resistor((second, above))
    yield Line((first + IN_LINE, above), (second - IN_LINE, above), "visible")
    for x, end in ((left + BEFORE, first - IN_LINE), (left + AFTER, second + IN_LINE)):
        yield from (Line((x, plus), (x, above), "visible"), Line((x, above), (end, above), "visible"))
        yield joined((x, plus))
    low, high, end = minus - 6.0, above + 10.0, left + DRIVE - 8.0
    corners = ((left + BOUNDARY, low), (end, low), (end, high), (left + BOUNDARY, high))
    for one, other in zip(corners, corners[1:] + corners[:1], strict=True):
        yield Line(one, other, "centre")


def _names(found: Electrics, left: float, lines: tuple[float, float], middle: float) -> Iterator[Text]:
    """What everything is called."""
    minus, plus = lines
    windows = {one.name: f"{one.low:g} to {one.high:g} V" for one in found.windows}
    named: tuple[tuple[str, Point], ...] = (
        ("inverter", (left + INVERTER + 1.5, middle + SIDE + 5.0)),
        (windows.get("inverter", ""), (left + INVERTER + 1.5, middle + SIDE + 1.8)),
        ("charger", (left + CHARGER + 1.5, middle + SIDE + 5.0)),
        (windows.get("charger", ""), (left + CHARGER + 1.5, middle + SIDE + 1.8)),
        ("mains", (left + CHARGER - SIDE - 8.0, middle + 1.2)),
        ("isolation", (left + MONITOR + 1.5, middle + SIDE + 5.0)),
        ("monitor", (left + MONITOR + 1.5, middle + SIDE + 1.8)),
        ("K1", (left + K1 - 2.0, plus - 4.0)),
        ("K2", (left + K1 - 2.0, minus - 4.0)),
        ("F0", (left + F1 - 2.0, plus + 3.0)),
        ("K3", (left + K1 - 10.0, plus + BRANCH - 4.0)),
        ("R1", (left + K1 + 5.0, plus + BRANCH + 3.2)),
        (f"+ {found.volts.full:.1f} V full", (left + INVERTER, plus + 1.5)),
        ("−", (left + INVERTER, minus - 4.0)),
        ("contactors and main fuse: find their place", (left + BOUNDARY, plus + BRANCH + 11.5)),
    )
    for words, at in named:
        if words:
            yield Text(cut_to(words, WORDS, 62.0), at, WORDS)
