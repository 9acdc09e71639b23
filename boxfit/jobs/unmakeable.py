"""What no shop would make is refused before the search, so that nobody waits for it; the rest after it."""

from collections import Counter

from boxfit.car import Car
from boxfit.layout import Layout


def refuse_unmakeable(car: Car) -> None:
    """Raises InputError with all that the shops cannot make of the [box] tables, once where bays share it."""
    from boxfit.box.shop_rules import shop_faults
    from boxfit.files.problems import InputError, Problem

    asked = [bay for bay in car.bays if bay.box.asked]
    found = {bay.name: shop_faults(bay.box) for bay in asked}
    shared = Counter(fault for faults in found.values() for fault in faults)
    problems = dict.fromkeys(
        Problem(
            "every bay" if len(asked) > 1 and shared[fault] == len(asked) else name,
            fault.key,
            fault.rule,
            fault.got,
            fault.remedy,
        )
        for name, faults in found.items()
        for fault in faults
    )
    if problems:
        raise InputError(problems)


def refuse_unbuildable(car: Car, layout: Layout) -> None:
    """Raises InputError with every reason why a box of the layout cannot be made as its rules say."""
    from boxfit.box.notes import cannot_build
    from boxfit.files.problems import InputError, Problem

    remedy = "give the workshop's own figures under [box] in car.toml or in the bay's file"
    problems = [
        Problem(bay.name, "", reason, None, remedy)
        for bay, placed in zip(car.bays, layout.bays, strict=True)
        for reason in (cannot_build(bay.box, placed.boxes) if placed.boxes else ())
    ]
    if problems:
        raise InputError(problems)
