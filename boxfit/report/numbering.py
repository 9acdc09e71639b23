"""The number every module carries in all pictures and lists: bay by bay, box by box, lowest tier first."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from boxfit.layout import Layout, PlacedModule


@dataclass(frozen=True)
class Numbered:
    """A placed module with its number, its bay's name, and its box and tier counted from 1."""

    number: int
    bay: str
    box: int
    tier: int
    module: PlacedModule


def numbered(layout: Layout) -> tuple[Numbered, ...]:
    """All modules of the layout, numbered from 1 in the order in which the layout lists them."""
    found: list[Numbered] = []
    for bay in layout.bays:
        for box_place, box in enumerate(bay.boxes, start=1):
            for tier_place, tier in enumerate(box.tiers, start=1):
                for module in tier.modules:
                    found.append(Numbered(len(found) + 1, bay.name, box_place, tier_place, module))
    return tuple(found)


def runs(numbers: Iterable[int]) -> str:
    """Numbers in short: neighbours joined from three on, other even steps from four on.

    >>> runs([7, 1, 2, 3, 9, 10]), runs([2, 5, 8, 11, 14])
    ('1-3, 7, 9, 10', '2, 5 .. 14')
    """
    left = sorted(numbers)
    words: list[str] = []
    while left:
        length = _even(left)
        step = left[1] - left[0] if length > 1 else 0
        if step == 1 and length > 2:
            words.append(f"{left[0]}-{left[length - 1]}")
        elif step > 1 and length > 3:
            words.append(f"{left[0]}, {left[1]} .. {left[length - 1]}")
        else:
            length = 1
            words.append(str(left[0]))
        left = left[length:]
    return ", ".join(words)


def _even(numbers: Sequence[int]) -> int:
    """How many numbers from the first on follow one another by the same step."""
    length = min(len(numbers), 2)
    while length < len(numbers) and numbers[length] - numbers[length - 1] == numbers[1] - numbers[0]:
        length += 1
    return length


def stacked(numbers: Sequence[int]) -> str:
    """Modules that stand on one another, lowest first.

    >>> stacked([1, 5])
    '1 / 5'
    """
    return " / ".join(str(number) for number in numbers)
