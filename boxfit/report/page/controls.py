"""The turnable model's place in the page, and all that turns, hides, parts and cuts it."""

import json
from collections.abc import Iterator
from html import escape

from boxfit.report.page.shown import Model

OFF_AT_FIRST = frozenset({"module room"})
MANY = {
    "bay": "bays",
    "keep-out": "keep-outs",
    "opening": "openings",
    "car lines": "axles and centre line",
    "tray": "trays",
    "lid": "lids",
    "gasket": "gaskets",
    "cover plate": "cover plates",
    "shelf": "shelves",
    "liner": "liners",
    "hold-down": "hold-downs",
    "hold-down bracket": "hold-down brackets",
    "foot": "feet",
    "spreading plate": "spreading plates",
    "stiffening bar": "stiffening bars",
    "doubler": "doublers",
    "disconnect cover": "disconnect covers",
    "lifting lug": "lifting lugs",
    "cable housing": "cable housings",
    "housing cover": "covers of cable housings",
    "housing block": "blocks of cable housings",
    "bought part": "bought parts",
    "module": "modules",
    "module room": "room kept clear by modules",
    "link cable": "link cables",
}
"""What several of a kind are called."""
VIEWS = (("corner", "From the corner"), ("plan", "Plan"), ("side", "Side"), ("rear", "Rear"))
AXES = (("none", "none"), ("x", "along the car (x)"), ("y", "across the car (y)"), ("z", "by height (z)"))
HELP = (
    "Drag to turn, drag with the right button to shift, wheel to zoom once the model is chosen. "
    "Keys: arrows turn, with Shift they shift, + and − zoom, Home goes back to the corner."
)


def model_frame(model: Model, title: str) -> str:
    """The picture and its controls; without JavaScript a line that says where to look instead."""
    return "\n".join(
        (
            '<div id="model" class="model">',
            f'<canvas id="model-canvas" tabindex="0" role="application" aria-label="{escape(title)}" '
            'aria-describedby="model-help model-said">',
            f"{escape(title)}; the drawings and tables below hold the same.</canvas>",
            *_labels(model),
            "</div>",
            '<p id="model-said" class="said" role="status">Click a part for its name.</p>',
            f'<p id="model-help" class="help">{escape(HELP)}</p>',
            '<p id="model-plain">The model needs JavaScript; drawings and tables below do not.</p>',
            '<form id="model-controls" class="controls" hidden>',
            *_views(),
            *_checks("kind", "Parts shown", [(kind, MANY.get(kind, kind)) for kind in kinds_of(model)]),
            *_checks("group", "Boxes shown", [(group, group) for group in groups_of(model)]),
            *_sliders(),
            "</form>",
        )
    )


def kinds_of(model: Model) -> tuple[str, ...]:
    """The kinds that are there, in the order in which they are told."""
    there = {*(part.kind for part in model.parts), *(line.kind for line in model.lines)}
    return (*(kind for kind in MANY if kind in there), *sorted(there - MANY.keys()))


def groups_of(model: Model) -> tuple[str, ...]:
    """The boxes, in the order of the model."""
    return tuple(dict.fromkeys(part.group for part in model.parts if part.group))


def _labels(model: Model) -> Iterator[str]:
    """Words that the viewer moves to their places; a reader hears them with the model's title."""
    for label in model.labels:
        at = json.dumps([round(value, 1) for value in label.at])
        yield f'<span class="label" aria-hidden="true" hidden data-at="{at}">{escape(label.words)}</span>'


def _views() -> Iterator[str]:
    yield "<fieldset><legend>Seen from</legend>"
    for name, words in VIEWS:
        yield f'<button type="button" data-view="{name}">{words}</button>'
    yield "</fieldset>"


def _checks(what: str, legend: str, names: list[tuple[str, str]]) -> Iterator[str]:
    if not names:
        return
    yield f"<fieldset><legend>{legend}</legend>"
    for name, words in names:
        on = "" if name in OFF_AT_FIRST else " checked"
        box = f'<input type="checkbox" data-{what}="{escape(name)}" autocomplete="off"{on}>'
        yield f"<label>{box} {escape(words)}</label>"
    yield "</fieldset>"


def _sliders() -> Iterator[str]:
    options = "".join(f'<option value="{value}">{words}</option>' for value, words in AXES)
    yield "<fieldset><legend>Exploded</legend>"
    yield '<label class="slider">parts pulled apart '
    yield '<input type="range" id="exploded" min="0" max="100" step="1" value="0" autocomplete="off"></label>'
    yield "</fieldset>"
    yield "<fieldset><legend>Section</legend>"
    yield f'<label>plane <select id="section-axis" autocomplete="off">{options}</select></label>'
    yield '<label class="slider">place <input type="range" id="section-at" min="0" max="1000" step="1" '
    yield 'value="500" autocomplete="off" disabled></label>'
    yield '<label><input type="checkbox" id="section-other" autocomplete="off" disabled>'
    yield " the other half</label>"
    yield '<output id="section-said">no section</output>'
    yield "</fieldset>"
