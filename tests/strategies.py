"""The one home of hypothesis strategies: add new ones here."""

import tomllib
from copy import deepcopy
from typing import Any

from hypothesis import strategies as st

from boxfit.layout import BayLayout, Layout, PlacedBox, PlacedModule, Tier, Weights
from boxfit.module import DIMENSIONS, FaceRoom, Module, Voltage, stances

Table = dict[str, object]

millimetres = st.integers(-3_000_000, 3_000_000).map(lambda micrometres: micrometres / 1000.0)
"""Places in a car [mm], to a thousandth."""

lengths = st.integers(1, 600).map(float)
"""Sizes of modules [mm]."""

small_gaps = st.sampled_from([0.0, 0.0, 2.0, 12.5, 30.0])
"""Rooms and spacings [mm]; most often none."""

junk = st.recursive(
    st.one_of(
        st.booleans(),
        st.integers(-10, 10),
        st.sampled_from([2**63, -(2**200), 10**400]),
        st.floats(),
        st.text(max_size=8),
        st.sampled_from(["block", "prism", "mesh", "cylinder", "up", "../..", "\x00", "driver"]),
    ),
    lambda inner: st.one_of(
        st.lists(inner, max_size=4), st.dictionaries(st.text(min_size=1, max_size=6), inner, max_size=3)
    ),
    max_leaves=6,
)
"""Any value that can stand in a TOML file."""


@st.composite
def modules(draw: st.DrawFn) -> Module:
    """Modules that can stand at least one way."""
    room = FaceRoom(
        front=draw(small_gaps),
        back=draw(small_gaps),
        left=draw(small_gaps),
        right=draw(small_gaps),
        top=draw(small_gaps),
    )
    up = draw(st.lists(st.sampled_from(DIMENSIONS), max_size=2, unique=True))
    return Module(
        name="Heron 44",
        stem="heron-44",
        length=draw(lengths),
        width=draw(lengths),
        height=draw(lengths),
        mass=11.6,
        energy=2.2,
        capacity=50.0,
        voltage=Voltage(33.0, 44.0, 50.4),
        up=tuple(dict.fromkeys(["height", *up])),
        spacing=draw(small_gaps),
        room=room,
    )


@st.composite
def layouts(draw: st.DrawFn, module: Module) -> Layout:
    """Layouts in shape only: they need not fit anywhere. Figures have at most six decimal places."""
    corners = st.tuples(millimetres, millimetres, millimetres)
    placed = st.builds(PlacedModule, st.sampled_from(stances(module)), corners)
    outlines = st.sampled_from([(), ((0.0, 0.0), (4.5, 0.0), (4.5, 2.0), (3.0, 2.0), (3.0, 4.0), (0.0, 4.0))])
    tiers = st.builds(Tier, millimetres, millimetres, st.lists(placed, max_size=3).map(tuple), outlines)
    boxes = st.builds(PlacedBox, corners, corners, st.lists(tiers, min_size=1, max_size=2).map(tuple))
    bays = st.builds(BayLayout, st.text(max_size=5), st.lists(boxes, max_size=2).map(tuple))
    known = st.one_of(st.none(), millimetres)
    centre = st.one_of(st.none(), st.tuples(millimetres, millimetres, known))
    weights = st.builds(Weights, millimetres, millimetres, known, known, known, known, known, centre)
    count = st.integers(0, 99)
    return draw(
        st.builds(
            Layout,
            st.just("Dunlin 850"),
            st.just(module.name),
            count,
            count,
            count,
            millimetres,
            count,
            st.booleans(),
            st.booleans(),
            st.lists(bays, max_size=2).map(tuple),
            weights,
            st.lists(st.text(max_size=8), max_size=2).map(tuple),
        )
    )


@st.composite
def spoiled_tables(draw: st.DrawFn, text: str) -> Table:
    """The tables of a TOML text with up to three keys left out, replaced by junk or renamed."""
    table: Table = deepcopy(tomllib.loads(text))
    for _ in range(draw(st.integers(1, 3))):
        holders = _holders(table)
        holder: Any = draw(st.sampled_from(holders))
        keys = list(holder) if isinstance(holder, dict) else list(range(len(holder)))
        if not keys:
            continue
        key = draw(st.sampled_from(keys))
        deed = draw(st.sampled_from(["leave out", "replace", "rename"]))
        if deed == "rename" and isinstance(holder, dict):
            holder[draw(st.text(max_size=6))] = holder.pop(key)
        elif deed == "replace":
            holder[key] = draw(junk)
        else:
            holder.pop(key)
    return table


@st.composite
def spoiled_bytes(draw: st.DrawFn, text: str) -> bytes:
    """The bytes of a text cut short, or with a few of them replaced."""
    held = text.encode()
    at = draw(st.integers(0, len(held)))
    filling = draw(st.binary(max_size=6))
    gone = draw(st.sampled_from([0, 1, 5, len(held)]))
    return held[:at] + filling + held[at + gone :]


def _holders(node: object) -> list[Table | list[object]]:
    """Every table and list in the tables, the outermost first."""
    if isinstance(node, dict):
        return [node, *(holder for each in node.values() for holder in _holders(each))]
    if isinstance(node, list):
        return [node, *(holder for each in node for holder in _holders(each))]
    return []


@st.composite
def changed_figures(draw: st.DrawFn, text: str) -> Table:
    """The tables of a TOML text with up to three keys left out or figures replaced, some far off."""
    table: Table = deepcopy(tomllib.loads(text))
    figures = st.one_of(
        st.integers(-30, 30_000),
        st.floats(-30_000.0, 30_000.0),
        st.floats(0.0, 2.0),
        st.sampled_from([0.1, 0.3, 50.0, 100.0, 5000.0, 10000.0, 20000.0, 2.0]),
    )
    for _ in range(draw(st.integers(1, 3))):
        holder: Any = draw(st.sampled_from(_holders(table)))
        places = list(holder) if isinstance(holder, dict) else list(range(len(holder)))
        place = draw(st.sampled_from(places)) if places else None
        if place is None:
            continue
        if isinstance(holder[place], int | float):
            holder[place] = draw(figures)
        elif isinstance(holder[place], dict | list) and draw(st.booleans()):
            holder.pop(place)
    return table


_odd_words = st.one_of(
    st.text(max_size=8),
    st.floats(0.0, 6000.0).map(repr),
    st.sampled_from(
        ["front bay", "car", 'é"x\\', "up", "prism", "nan", "1e999", "", "2180", "a,b", '"', "\n"]
    ),
)
_bay_fields = st.tuples(
    st.one_of(st.just("car"), st.text(min_size=1, max_size=60)),
    st.sampled_from(["block", "prism", "sections", "mesh", "step"]),
    st.sampled_from(["up", "left", "rear"]),
    *[st.floats(10.0, 5000.0).map(repr)] * 3,
    st.one_of(st.just(""), st.floats(-12000.0, 5000.0).map(repr)),
    st.one_of(st.just(""), st.floats(-1000.0, 5000.0).map(repr)),
)


def _quoted_fields(fields: tuple[str, ...]) -> str:
    return ",".join('"{}"'.format(field.replace('"', '""')) for field in fields)


bay_options = st.one_of(
    _bay_fields.map(_quoted_fields),
    _bay_fields.map(_quoted_fields),
    _odd_words,
    st.lists(_odd_words, min_size=6, max_size=8).map(",".join),
)
"""What may stand behind --bay: most often a bay that can be taken."""

words_of_options = st.one_of(st.floats(100.0, 5000.0).map(repr), _odd_words)
"""What may stand behind another option."""
