"""The order in which the boxes are filled, in words for the summary and as comma-separated text."""

import csv
import io
from collections.abc import Iterator

from boxfit.box.assembly import Step
from boxfit.box.assembly_hand import HAND, SWING
from boxfit.report.columns import tenths
from boxfit.report.numbering import runs

CSV_HEADS = (
    "bay",
    "box",
    "step",
    "module",
    "tier",
    "drop height mm",
    "terminal faces",
    "hand room across mm",
    "needed mm",
    "lacks mm",
    "note",
)
PRACTICE = (
    f"Hand room: {HAND:.0f} mm across and {SWING:.0f} mm of swing for a hand with an insulated spanner"
    " (common practice, no source), at the best place of the terminal face, walls up and lid off. A working"
    " aid: try it with dummy modules."
)


def assembly_lines(steps: tuple[Step, ...]) -> tuple[str, ...]:
    """Entries for the summary: each box's order, tier by tier, and what lacks; none where there is no box."""
    boxes: dict[tuple[str, int], list[Step]] = {}
    for step in steps:
        boxes.setdefault((step.bay, step.box), []).append(step)
    lines = [line for (bay, box), own in boxes.items() for line in _box_lines(f"{bay} box {box}", own)]
    return (*lines, PRACTICE) if lines else ()


def _box_lines(name: str, steps: list[Step]) -> Iterator[str]:
    modules = [step for step in steps if step.doing == "module"]
    tiers = sorted({step.tier for step in modules})
    held = {step.tier for step in steps if step.doing == "hold-down"}
    orders = (
        _in_order([step.module for step in modules if step.tier == tier])
        + ("; then its packers and hold-downs" if tier in held else "")
        for tier in tiers
    )
    order = "; then the shelf; ".join(orders)
    yield f"{name}: lower straight down and connect one by one: {order}; then the lid."
    for note in (note for step in steps if step.doing == "tray" for note in step.notes):
        yield f"{name}: {note}."
    short: dict[tuple[str, ...], list[Step]] = {}
    for step in modules:
        if step.notes:
            short.setdefault(step.notes, []).append(step)
    for notes, own in short.items():
        yield f"{name}, {_which(own)}: {'; '.join((*_lack(own), *notes))}."


def _which(steps: list[Step]) -> str:
    numbers = [step.module for step in steps]
    return f"module{'s' if len(numbers) > 1 else ''} {runs(numbers)}"


def _lack(steps: list[Step]) -> Iterator[str]:
    """What the hand lacks at the worst of them."""
    worst = min(steps, key=lambda step: step.across)
    if worst.lacks > 0.0:
        yield (
            f"{_down(worst.across)} mm across for the hand at {_faces(worst)}, {HAND:.0f} needed,"
            f" lacks {tenths(worst.lacks)} mm"
        )


def _faces(step: Step) -> str:
    """Each terminal face and where it looks.

    >>> from boxfit.box.assembly_hand import TerminalFace
    >>> _faces(Step("bay", 1, 2, "module", faces=(TerminalFace("front", 1, -1),)))
    'front (looks right)'
    """
    return ", ".join(f"{face.name} (looks {face.looks})" for face in step.faces)


def _in_order(numbers: list[int]) -> str:
    """Numbers in the order given; runs that only rise in short.

    >>> _in_order([1, 2, 3, 4]), _in_order([2, 1, 3])
    ('1-4', '2, 1, 3')
    """
    if numbers == sorted(numbers):
        return runs(numbers)
    return ", ".join(map(str, numbers))


def _down(figure: float) -> str:
    return tenths(int(figure * 10.0 + 1e-6) / 10.0)


def assembly_csv(steps: tuple[Step, ...]) -> str:
    """One row for each module, in the order in which they are lowered [mm]."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(CSV_HEADS)
    for step in steps:
        if step.doing == "module":
            writer.writerow(
                (
                    step.bay,
                    step.box,
                    step.number,
                    step.module,
                    step.tier,
                    f"{step.drop:.1f}",
                    _faces(step),
                    _down(step.across) if step.across < SWING else f"{SWING:.0f} or more",
                    f"{HAND:.0f}",
                    tenths(step.lacks),
                    "; ".join(step.notes),
                )
            )
    return text.getvalue()
