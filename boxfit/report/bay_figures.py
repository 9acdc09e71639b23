"""The figures beside a surveyed bay: sizes, litres, allowance, keep-outs by letter, and the legend."""

from collections.abc import Iterator

from boxfit.bay import Bay, Keepout, Opening, Shell
from boxfit.report.area import Area, area_of
from boxfit.report.balloons import letter
from boxfit.report.bay_panel import bay_size
from boxfit.report.bay_survey import ALLOWANCE, BAND, OUTLINE, allowance_told, moved_room, told
from boxfit.report.columns import counted
from boxfit.report.figures import draw_swatch
from boxfit.report.look import AXLE, OPENING, Ink, Lettering
from boxfit.report.paper import Sheet
from boxfit.report.parts import full_name, keepout_legend
from boxfit.report.projection import PLAN, WAYS, extents
from boxfit.report.room import keepout_litres, kept, kept_from, surveyed_as, surveyed_litres, usable_litres

WIDTH, WIDEST = 140.0, 165.0
"""The least and the greatest width of the figures [mm of paper]."""
LINE = 5.0
"""From one line to the next [mm of paper]."""
STOPS = (0.0, 0.68, 0.84)
"""Where the columns of the keep-outs start, as shares of the width."""
SWATCH = 4.5
"""From one line of the legend to the next [mm of paper]."""
MOST_KEEPOUTS = 14
SMALLEST_TOLD = 0.05
"""Less is told as less than a tenth of a litre [l]."""
Row = tuple[str, ...]
TEXT = Lettering(8.5, anchor="left")
BOLD = Lettering(8.5, bold=True, anchor="left")


def figures_height(bay: Bay) -> float:
    """The paper [mm] that the figures take."""
    legend = SWATCH * (len(_legend(bay)) + 1) // 2
    return 8.0 + LINE * len(_rows(bay)) + legend + 4.0


def draw_bay_figures(sheet: Sheet, bay: Bay, room: Area) -> None:
    """Write the figures from the top of the place, and the legend below them."""
    wide = min(room.width, WIDEST)
    sheet.write(sheet.fitted(bay.name, _heading(), wide), (room.left, room.top - 3.0), _heading())
    height = room.top - 8.0
    for lettering, row in _rows(bay):
        ends = (*STOPS[1 : len(row)], 1.0)
        for words, start, end in zip(row, STOPS[: len(row)], ends, strict=True):
            short = sheet.fitted(words, lettering, wide * (end - start) - 1.5)
            if short:
                sheet.write(short, (room.left + wide * start, height - LINE / 2), lettering)
        height -= LINE
    for number, (ink, words) in enumerate(_legend(bay)):
        line, column = divmod(number, 2)
        at = (room.left + column * wide / 2, height - 4.0 - SWATCH * line)
        draw_swatch(sheet, ink, words, at, wide / 2 - 9.0)


def _heading() -> Lettering:
    return Lettering(11.0, bold=True, anchor="left")


def _rows(bay: Bay) -> tuple[tuple[Lettering, Row], ...]:
    rows: list[tuple[Lettering, Row]] = [(TEXT, (words,)) for words in _words(bay)]
    rows.append((TEXT, ("",)))
    if not bay.keepouts:
        return (*rows, (TEXT, ("No keep-outs.",)))
    rows.append((BOLD, ("keep-outs", "a box keeps", "own litres")))
    rows += [(TEXT, _keepout(place, keepout)) for place, keepout in enumerate(bay.keepouts[:MOST_KEEPOUTS])]
    if len(bay.keepouts) > MOST_KEEPOUTS:
        rows.append(
            (TEXT, (f"and {counted(len(bay.keepouts) - MOST_KEEPOUTS, 'more', 'more')}: see the check",))
        )
    return tuple(rows)


def _words(bay: Bay) -> Iterator[str]:
    low, high = extents(bay)
    length, width, height = bay_size(bay)
    yield f"length {told(length)} (x), width {told(width)} (y), height {told(height)} (z)"
    yield ", ".join(f"{name} {told(a)} to {told(b)}" for name, a, b in zip("xyz", low, high, strict=True))
    yield "x forward from the front axle, y left of the centre line, z up from the ground"
    usable = usable_litres(bay)
    within = "not worked out" if usable is None else f"{usable:.1f} litres"
    within += " within the allowance, keep-outs not taken off"
    yield f"{surveyed_litres(bay):.1f} litres as surveyed; {within}"
    yield from (f"survey: {words}" for words in surveyed_as(bay) if isinstance(bay.room, Shell))
    yield f"allowance at every surface: {allowance_told(bay)}"
    if not moved_room(PLAN, bay, -kept(bay)):
        yield "THE ALLOWANCE LEAVES NO ROOM FOR A BOX"
    if not bay.box.asked:
        yield "no [box] rules given: clearance taken as nothing"
    yield _way_in(bay.opening) if bay.opening else "opening: none given; how a box goes in is not checked"
    yield "measured again:  length . . . . . . . . .   width . . . . . . . . .   height . . . . . . . . ."


def _way_in(opening: Opening) -> str:
    """Which side is open, and the hole's size over all."""
    if opening.outline is None:
        return f"opening: {opening.way}, the whole side"
    hole = area_of(opening.outline)
    first, second = (name for axis, name in enumerate("xyz") if axis != WAYS[opening.way][0])
    spans = (
        f"{first} {told(hole.left)} to {told(hole.right)}, {second} {told(hole.bottom)} to {told(hole.top)}"
    )
    return f"opening: {opening.way}, {told(hole.width)} × {told(hole.height)} over all ({spans})"


def _keepout(place: int, keepout: Keepout) -> Row:
    litres = keepout_litres(keepout)
    volume = f"{litres:.1f}" if litres >= SMALLEST_TOLD else "under 0.1"
    return (f"{letter(place)}  {full_name(keepout)}", f"{told(kept_from(keepout))} mm", volume)


def _legend(bay: Bay) -> tuple[tuple[Ink, str], ...]:
    low, high = extents(bay)
    entries: list[tuple[Ink, str]] = [(OUTLINE, "outline as surveyed")]
    if bay.tolerance > 0:
        entries.append((BAND, f"the survey may be out by ± {bay.tolerance:g}"))
    entries.append((ALLOWANCE, f"a box, flange and all, stays {told(kept(bay))} inside"))
    entries += [(ink, f"{words}, stays in the bay") for ink, words in keepout_legend((bay,))]
    if bay.opening:
        entries.append((OPENING, "opening; thick where seen edge-on"))
    if low[1] < 0.0 < high[1]:
        entries.append((AXLE, "centre line of the car"))
    return tuple(entries)
