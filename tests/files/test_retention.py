"""The [retention] table: a rule set by name, own factors, and both."""

from pathlib import Path

import pytest

from boxfit.car import PullFactors
from boxfit.files.car import read_car
from boxfit.retention.rules import rules_of
from boxfit.standards.load_factors import PULLS
from tests.samples import CAR_FILES, changed, write_car

CASES: dict[str, tuple[str | PullFactors, tuple[float, ...]]] = {
    "": ("", (20.0, 10.0, 15.0, 10.0, 10.0)),
    '\n[retention]\nrules = "r100-m1-n1"\n': ("r100-m1-n1", (28.0, 28.0, 15.0, 10.0, 10.0)),
    "\n[retention]\nfactors = { up = 12, side = 0 }\n": (
        PullFactors("", 20.0, 10.0, 0.0, 12.0, 10.0),
        (20.0, 10.0, 0.0, 12.0, 10.0),
    ),
    '\n[retention]\nrules = "r100-m1-n1"\nfactors = { up = 12.0 }\n': (
        PullFactors("r100-m1-n1", 28.0, 28.0, 15.0, 12.0, 10.0),
        (28.0, 28.0, 15.0, 12.0, 10.0),
    ),
}


@pytest.mark.parametrize("table", CASES)
def test_what_is_believed(table: str, tmp_path: Path) -> None:
    text = changed(CAR_FILES["car.toml"], "boxes = 1\n", f"boxes = 1\n{table}")
    car = read_car(write_car(tmp_path, {**CAR_FILES, "car.toml": text}))
    said, factors = CASES[table]
    assert car.retention == said
    assert tuple(rules_of(car).factor(pull) for pull in PULLS) == factors
