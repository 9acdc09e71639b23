"""Everything read, told and drawn."""

from pathlib import Path

from boxfit.car import Car
from boxfit.jobs.going_on import Tell
from boxfit.jobs.landing import landing, origin_of


def check(car: Car, target: Path, tell: Tell) -> str:
    """Draws every bay as surveyed; returns what the car holds, and what is missing or odd.

    Raises InputError where the drawings cannot be written.
    """
    from boxfit.files.record import CHECK
    from boxfit.report.bay_views import write_bay_views
    from boxfit.report.check_text import check_text

    with landing(target, CHECK, car, None, origin_of(car)) as folder:
        tell("drawing the bays")
        write_bay_views(car, folder)
    return check_text(car)
