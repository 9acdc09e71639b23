"""What is fixed to the boxes: judged and written, and mounts out of reach told."""

from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.car import Car
from boxfit.jobs.going_on import refuse_faulty
from boxfit.layout import Layout
from boxfit.module import Module

if TYPE_CHECKING:
    from boxfit.box.whole import BuiltBox


def out_of_reach(car: Car, layout: Layout, built: "tuple[BuiltBox, ...]") -> tuple[str, ...]:
    """What to tell of every mount that no foot reaches, where the others do not hold a box.

    Told, not refused: the body's mounts are what they are, and another module may put the box elsewhere.
    """
    from boxfit.box.outside.fit import mounts_out_of_reach

    told = mounts_out_of_reach(car, layout, [one.parts for one in built])
    return tuple(f"{bay}: {key}: {rule}; try: {remedy}" for bay, key, rule, remedy in told)


def write_fittings(
    car: Car, module: Module, layout: Layout, built: "tuple[BuiltBox, ...]", folder: Path
) -> None:
    """fittings.json, judged. Raises JudgedWrongError."""
    from boxfit.box.fittings_json import fittings_as_data, fittings_bytes
    from boxfit.files.layout_json import layout_as_data
    from boxfit.judge.fittings import judge_fittings
    from boxfit.judge.hold_downs import judge_hold_downs

    told, laid = fittings_as_data(built), layout_as_data(layout)
    findings = (*judge_fittings(told, car, module, laid), *judge_hold_downs(told, car, module, laid))
    refuse_faulty(findings)
    (folder / "fittings.json").write_bytes(fittings_bytes(built))
