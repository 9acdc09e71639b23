"""A hundred invented modules in two invented cars, searched in a process of its own for the benchmark."""

import sys
from dataclasses import replace
from pathlib import Path
from random import Random

from boxfit.bay import Block, Keepout, Prism
from boxfit.car import Car
from boxfit.jobs.sweep import Means, swept
from boxfit.module import Module
from tests.jobs.sweeps import SMALL, quick_car

MODULES = 100


def modules() -> tuple[Module, ...]:
    """Modules of many sizes, every other one may stand on its side too; the same ones each time."""
    draw = Random(7)
    found: list[Module] = []
    for number in range(MODULES):
        length, width, height = (float(draw.randrange(*span)) for span in ((180, 380), (96, 180), (72, 132)))
        litres = length * width * height / 1e6
        plain = replace(SMALL, name=f"Plover {number}", stem=f"plover-{number}")
        plain = replace(plain, up=("height", "width") if number % 2 else ("height",))
        sized = replace(plain, length=length, width=width, height=height)
        found.append(replace(sized, mass=round(2.1 * litres, 1), energy=round(litres / 3.0, 2)))
    return tuple(found)


def cars() -> tuple[Car, ...]:
    """Two cars with one bay each, askew, for two boxes, and with two things that stay in it."""
    return _car(420.0), _car(460.0)


def _car(width: float) -> Car:
    side = width / 2.0
    outline = ((-900.0, -side), (-420.0, -side), (-300.0, 90.0 - side), (-300.0, side), (-900.0, side - 60.0))
    post = Block((-735.0, 5.0 - side, 330.0), (-665.0, 75.0 - side, 560.0))
    arch = Block((-520.0, side - 70.0, 300.0), (-300.0, side, 430.0))
    (bay,) = quick_car().bays
    room = Prism(outline, 300.0, 620.0)
    stays = (Keepout("post", post, 13.0), Keepout("arch", arch, 13.0))
    two_boxes = replace(bay.box, boxes=2)
    return replace(quick_car(), bays=(replace(bay, box=two_boxes, room=room, keepouts=stays),))


def main() -> None:
    """Sweeps with as many processes as the first word says, into the folder that the second names."""
    means = Means(30.0, int(sys.argv[1]), Path(sys.argv[2]))
    found = swept(cars(), modules(), means, lambda _done, _all: None)
    print(len(found), sum(finding.layout is not None for finding in found.values()))


if __name__ == "__main__":
    main()
