"""What the pack as made puts on the wheels, as weights.csv."""

from pathlib import Path
from typing import TYPE_CHECKING

from boxfit.car import Car
from boxfit.weight.pack import Pack
from boxfit.weight.scales import Item

if TYPE_CHECKING:
    from boxfit.solid.weighed import WeighedCar


def made_pack(masses: "WeighedCar | None") -> Pack | None:
    """The boxes as their solids weigh them, and the link cables; None of a layout without modules."""
    from boxfit.solid.mass_properties import together

    if masses is None:
        return None
    boxes = tuple(Item(box.name, box.filled.mass, box.filled.centre) for box in masses.boxes)
    if masses.cables:
        links = together([cable.properties for cable in masses.cables])
        boxes = (*boxes, Item("link cables", links.mass, links.centre))
    return Pack(boxes, every_part=True)


def write_weights(car: Car, pack: Pack | None, folder: Path) -> None:
    """The loads state by state; nothing of a car that was not weighed. Raises OSError."""
    from boxfit.report.wheels_text import weights_csv

    if car.weighed is not None and pack is not None:
        text = weights_csv(car, car.weighed, pack)
        (folder / "weights.csv").write_bytes(text.encode())
