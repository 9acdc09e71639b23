"""What the check tells of modules, against modules made odd on purpose. Expected figures: by hand."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boxfit.module import Current, FaceRoom, Module, Voltage
from boxfit.report.modules_text import modules_text
from boxfit.report.odd_modules import odd_modules
from boxfit.standards.usual_modules import CELLS, cell_counts

HERON = Module(
    "Heron 44",
    "heron-44",
    355.0,
    151.0,
    108.0,
    11.6,
    2.2,
    50.0,
    Voltage(33.0, 44.0, 50.4),
    ("height",),
    2.0,
    Current(100.0, 250.0),
    FaceRoom(top=30.0),
)


def test_a_module_in_order() -> None:
    """By hand: 5.789 litres, 2.00 kg a litre, 190 Wh a kg."""
    text = modules_text([HERON])
    assert text.splitlines()[1] == (
        "  heron-44  355 x 151 x 108    5.79  11.6  2.2    190  2.00  33-44-50.4  100, 250"
    )
    assert text.endswith("nothing missing, nothing odd\n")


@pytest.mark.parametrize(
    ("module", "told"),
    [
        (
            replace(HERON, mass=116.0, energy=22.0, capacity=500.0, current=Current(1000.0, 2500.0)),
            "mass: makes 20 kg per litre; usual are 1 to 2.8 kg per litre (common practice)",
        ),
        (
            replace(HERON, energy=0.5, capacity=11.4),
            "energy: makes 43.1 Wh per kg; usual are 60 to 280 Wh per kg (common practice)",
        ),
        (
            replace(HERON, energy=2.4),
            "energy: 2.4 kWh, but capacity 50 Ah times nominal 44 V is 2.2",
        ),
        (
            replace(HERON, voltage=Voltage(33.0, 44.0, 60.0)),
            "voltage.full: 1.36 of nominal; lithium cells have 1.00 to 1.32 (common practice)",
        ),
        (
            replace(HERON, voltage=Voltage(3.3, 44.0, 50.4)),
            "voltage.empty: 0.07 of nominal; lithium cells have 0.56 to 0.97 (common practice)",
        ),
        (
            replace(HERON, voltage=Voltage(3.9, 5.2, 5.8), capacity=423.0, current=Current(400.0, 900.0)),
            "voltage: no whole number of lithium cells has 3.9, 5.2 and 5.8 V (common practice)",
        ),
        (replace(HERON, current=None), "current: missing; what the strings may give stays unknown"),
        (
            replace(HERON, current=Current(1000.0, 2500.0)),
            "current.continuous: makes 20 A per Ah; usual are 0.3 to 12 A per Ah (common practice)",
        ),
        (
            replace(HERON, room=FaceRoom()),
            "room.top: 0 mm where terminals are taken to be; usual are 10 at least (common practice)",
        ),
        (
            replace(HERON, room=FaceRoom(top=5.0), terminals="top"),
            "room.top: 5 mm where the terminals are; usual are 10 at least (common practice)",
        ),
        (
            replace(HERON, terminals="front", room=FaceRoom(front=25.0)),
            'held.at: bars would press over the terminals at "front"; ask its maker where it may be pressed',
        ),
        (
            replace(HERON, room=FaceRoom(top=300.0)),
            "room.top: 300 mm is more than the height 108 itself",
        ),
        (replace(HERON, spacing=25.0), "spacing: 25 mm; usual are 20 at most (common practice)"),
    ],
)
def test_one_odd_thing_is_told_alone(module: Module, told: str) -> None:
    assert odd_modules([module]) == (f"heron-44.toml: {told}",)


def test_doubles_are_told_with_the_later_file() -> None:
    lying = replace(HERON, name="Egret", stem="zz", length=108.0, height=355.0)
    namesake = replace(HERON, name="heron-44", stem="aa", mass=12.0)
    assert odd_modules([namesake, HERON, lying]) == (
        'heron-44.toml: name: "Heron 44" is the name in aa.toml too',
        "zz.toml: size, mass and energy are those of heron-44.toml; is it the same module?",
    )


def test_a_price_is_missed_only_among_others() -> None:
    priced = replace(HERON, name="Egret", stem="egret", mass=12.0, price=900.0)
    assert odd_modules([priced, HERON]) == (
        "heron-44.toml: price: missing, while others have one; its cost stays unknown",
    )


def test_the_table_is_by_file_and_narrow() -> None:
    others = [replace(HERON, name=f"n{k}", stem=f"m{k}", mass=11.0 + k / 10, current=None) for k in range(3)]
    lines = modules_text(others[::-1]).splitlines()
    assert [line.split()[0] for line in lines[1:4]] == ["m0", "m1", "m2"]
    assert max(map(len, lines)) <= 100
    assert "missing or odd: 3" in lines


@given(
    st.sampled_from(CELLS), st.integers(1, 120), st.floats(0.0, 1.0), st.floats(0.0, 1.0), st.floats(0.0, 1.0)
)
def test_any_number_of_usual_cells_is_found(cell: object, count: int, a: float, b: float, c: float) -> None:
    assert isinstance(cell, type(CELLS[0]))
    volts = [
        round(count * (usual.low + part * (usual.high - usual.low)), 6)
        for usual, part in ((cell.empty, a), (cell.nominal, b), (cell.full, c))
    ]
    assert count in cell_counts(*volts)
