"""The title block: fields after ISO 7200, with what a sheet-metal shop asks beside them."""

from collections.abc import Iterator
from dataclasses import dataclass

from boxfit.bay import BoxRules, Point
from boxfit.sheet.drawing.letters import cut_to, wrapped
from boxfit.sheet.drawing.marks import Circle, Line, Mark, Text
from boxfit.sheet.drawing.paper import Paper

TITLE_WIDTH = 180.0
"""ISO 7200: 180 mm, so that it fits A4; from memory."""
ROW = 9.0
"""Height [mm] of a row."""
ROWS = 5
TITLE_HEIGHT = ROW * ROWS + 7.0
LABEL, VALUE = 1.8, 2.5
"""Heights [mm] of a field's name and of what it says."""
PARTS, WELDED = "ISO 2768-m", "ISO 2768-m; welds ISO 13920-B"
WORKING_AID = "A working aid: check every figure before cutting."


def printed_tolerance(rules: BoxRules) -> str:
    """What a printed part may be out, as the workshop's tolerances have it.

    >>> from boxfit.standards.common_practice import USUAL_BOX
    >>> printed_tolerance(USUAL_BOX)
    '± 0.3 mm'
    """
    return f"± {rules.tolerances.printed:g} mm"


@dataclass(frozen=True)
class Title:
    """What the title block says; what is empty is left to be filled in by hand.

    `scale` is like "1:5", `mass` is in [kg], `number` the part's number, `cautions` one short sentence.
    """

    title: str
    number: str
    kind: str
    scale: str
    car: str
    material: str = ""
    thickness: str = ""
    tolerances: str = PARTS
    mass: str = ""
    finish: str = ""
    quantity: str = ""
    cautions: str = ""
    sheet: str = "1 / 1"


@dataclass(frozen=True)
class _Field:
    """A field: its row from the top, from where to where across, its name and what it says."""

    row: int
    start: float
    end: float
    label: str
    value: str = ""


def _fields(title: Title) -> tuple[_Field, ...]:
    """All fields [mm from the left of the block]."""
    return (
        _Field(0, 0.0, 60.0, "material", title.material),
        _Field(0, 60.0, 90.0, "thickness", title.thickness),
        _Field(0, 90.0, 125.0, "finish and grain", title.finish),
        _Field(0, 125.0, 150.0, "quantity", title.quantity),
        _Field(0, 150.0, 180.0, "mass", title.mass),
        _Field(1, 0.0, 90.0, "general tolerances", title.tolerances),
        _Field(1, 90.0, 125.0, "dimensions in mm; scale", title.scale),
        _Field(1, 125.0, 150.0, "projection"),
        _Field(1, 150.0, 180.0, "sheet size"),
        _Field(2, 0.0, 60.0, "legal owner (workshop)"),
        _Field(2, 60.0, 125.0, "document type", title.kind),
        _Field(2, 125.0, 180.0, "identification number", title.number),
        _Field(3, 0.0, 60.0, "creator"),
        _Field(3, 60.0, 180.0, "title", title.title),
        _Field(4, 0.0, 60.0, "approval person"),
        _Field(4, 60.0, 125.0, "car", title.car),
        _Field(4, 125.0, 155.0, "date of issue"),
        _Field(4, 155.0, 180.0, "sheet", title.sheet),
    )


def title_marks(paper: Paper, title: Title) -> Iterator[Mark]:
    """The block in the lower right corner of the frame."""
    _, bottom, right, _ = paper.frame
    left, top = right - TITLE_WIDTH, bottom + TITLE_HEIGHT
    yield Line((left, bottom), (left, top), "frame", 0.35)
    yield Line((left, top), (right, top), "frame", 0.35)
    caution = " ".join(part for part in (WORKING_AID, title.cautions) if part)
    lines = wrapped(caution, LABEL, TITLE_WIDTH - 4.0)[:2]
    for place, words in enumerate(lines):
        yield Text(words, (left + 2.0, top - 3.0 - 3.0 * place), LABEL)
    for field in _fields(title):
        yield from _field((left, top - 7.0), field)
        if field.label == "projection":
            yield from first_angle((left + field.start + 11.0, top - 7.0 - ROW * field.row - 5.9), 1.0)
        elif field.label == "sheet size":
            yield Text(paper.name, (left + field.start + 1.5, top - 7.0 - ROW * field.row - 7.2), VALUE)


def _field(corner: Point, field: _Field) -> Iterator[Mark]:
    """A field: line above, line at its right, its name small and what it says below."""
    left, right = corner[0] + field.start, corner[0] + field.end
    top = corner[1] - ROW * field.row
    yield Line((left, top), (right, top), "frame")
    if field.end < TITLE_WIDTH:
        yield Line((right, top), (right, top - ROW), "frame")
    room = field.end - field.start - 3.0
    yield Text(cut_to(field.label, LABEL, room), (left + 1.5, top - 2.9), LABEL)
    if field.value:
        large = 3.5 if field.label == "title" else VALUE
        yield Text(
            cut_to(field.value, large, room), (left + 1.5, top - (7.7 if large > VALUE else 7.4)), large
        )


def first_angle(at: Point, size: float) -> Iterator[Mark]:
    """The sign of first-angle projection, ISO 5456-2: the cone at the left, its end view at the right."""
    x, y = at
    narrow, wide, long = 1.0 * size, 2.0 * size, 4.0 * size
    near, far = x - 1.5 * size - long, x - 1.5 * size
    yield Line((near, y - narrow), (near, y + narrow), "visible")
    yield Line((far, y - wide), (far, y + wide), "visible")
    yield Line((near, y - narrow), (far, y - wide), "visible")
    yield Line((near, y + narrow), (far, y + wide), "visible")
    eye = x + 1.5 * size + wide
    yield Circle((eye, y), narrow, "visible")
    yield Circle((eye, y), wide, "visible")
    yield Line((near - 1.0, y), (far + 1.0, y), "dimension")
    yield Line((eye - wide - 0.8, y), (eye + wide + 0.8, y), "dimension")
    yield Line((eye, y - wide - 0.8), (eye, y + wide + 0.8), "dimension")
