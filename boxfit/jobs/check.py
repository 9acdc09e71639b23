"""Everything read, told and drawn."""

from pathlib import Path

from boxfit.car import Car
from boxfit.jobs.going_on import Tell


def check(car: Car, target: Path, tell: Tell) -> str:
    """Draws every bay as surveyed; returns what the car holds, and what is missing or odd.

    Raises InputError where the drawings cannot be written.
    """
    from boxfit.files.results import whole_or_nothing
    from boxfit.report.bay_views import write_bay_views
    from boxfit.report.check_text import check_text

    with whole_or_nothing(target) as folder:
        tell("drawing the bays")
        write_bay_views(car, folder)
    return check_text(car)
