"""A box of a layout with its parts."""

from dataclasses import dataclass

from boxfit.bay import Bay
from boxfit.box.parts import BoxParts
from boxfit.layout import PlacedBox


@dataclass(frozen=True)
class BuiltBox:
    """A box of the layout: its bay, its number there from 1, where it stands, what it is made of."""

    bay: Bay
    number: int
    box: PlacedBox
    parts: BoxParts
