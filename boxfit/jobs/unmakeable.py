"""What no shop would make is refused before the search, so that nobody waits for it."""

from collections import Counter

from boxfit.car import Car


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
