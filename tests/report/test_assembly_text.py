"""The filling order in words and as a table."""

import csv
import io

from boxfit.box.assembly import Step, assembly
from boxfit.box.assembly_hand import TerminalFace
from boxfit.report.assembly_text import CSV_HEADS, PRACTICE, assembly_csv, assembly_lines
from tests.report.samples import roadster

FRONT = TerminalFace("front", 0, 1)
SHORT = (
    Step("bay", 1, 1, "tray", notes=("fill it on the bench: it weighs 30.0 kg",)),
    Step("bay", 1, 2, "module", 1, 2, 150.0, (FRONT,), 150.0),
    Step("bay", 1, 3, "module", 1, 1, 150.0, (FRONT,), 35.46, notes=("no order gives more",)),
    Step("bay", 1, 4, "hold-down", 1),
    Step("bay", 1, 5, "shelf", 2),
    Step("bay", 1, 6, "module", 2, 3, 50.0, (FRONT,), 75.0),
    Step("bay", 1, 7, "lid"),
)


def test_the_summary_tells_order_bench_and_what_lacks() -> None:
    assert assembly_lines(SHORT) == (
        "bay box 1: lower straight down and connect one by one: 2, 1; then its packers and hold-downs;"
        " then the shelf; 3; then the lid.",
        "bay box 1: fill it on the bench: it weighs 30.0 kg.",
        "bay box 1, module 1: 35.4 mm across for the hand at front (looks front), 60 needed, lacks 24.5 mm;"
        " no order gives more.",
        PRACTICE,
    )


def test_no_box_no_words() -> None:
    assert assembly_lines(()) == ()


def test_the_table_has_a_row_for_each_module_in_the_order_lowered() -> None:
    rows = list(csv.DictReader(io.StringIO(assembly_csv(SHORT))))
    assert tuple(rows[0]) == CSV_HEADS
    assert [row["module"] for row in rows] == ["2", "1", "3"]
    assert [row["lacks mm"] for row in rows] == ["0", "24.5", "0"]
    assert [row["hand room across mm"] for row in rows] == ["150 or more", "35.4", "75"]


def test_a_whole_car_reads_plainly() -> None:
    car, module, layout = roadster()
    steps = assembly(car, module, layout)
    lines = assembly_lines(steps)
    assert sum("lower straight down" in line for line in lines) == 2
    assert all(line.endswith(".") for line in lines)
    assert len(assembly_csv(steps).splitlines()) == 1 + layout.count
    assert assembly_csv(steps) == assembly_csv(assembly(car, module, layout))
