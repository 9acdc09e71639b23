"""Whether what the scales read agrees with itself: axles and gross with the wheels, heights, the plate.

They look at the file as it stands; a figure that is no weight is left to the check of its own key.
"""

from collections.abc import Iterator

from boxfit.car import USUAL_SCALE, CornerWeights, RaisedAxle
from boxfit.files import bounds
from boxfit.files.figures import Raw, figure, figures_sum, table
from boxfit.files.problems import Problem
from boxfit.files.shown import shown
from boxfit.weight.raised_axle import gained, height_of_mass

FRONT, REAR = ("front_left", "front_right"), ("rear_left", "rear_right")
WHEELS = {"front_axle": FRONT, "rear_axle": REAR, "gross": (*FRONT, *REAR)}
HEIGHTS_AGREE = 25.0
"""Heights of the same mass that differ by more [mm] are not of one car (our own choice)."""


def across_weighed(raw: Raw, file: str) -> Iterator[Problem]:
    """What does not agree among the readings of a car file, and with the maker's plate."""
    weighed = table(raw, "weighed")
    yield from _not_adding_up(weighed, file)
    yield from _raised(raw, weighed, file)
    yield from _already_over(weighed, table(raw, "limits"), file)


def _not_adding_up(weighed: Raw, file: str) -> Iterator[Problem]:
    """Axles or gross, read another way, that the wheels do not add up to within the scales' error."""
    error = figure(weighed.get("scale_error", USUAL_SCALE))
    if error is None or error < 0.0:
        return
    for key, wheels in WHEELS.items():
        read, added = figures_sum(weighed, (key,)), figures_sum(weighed, wheels)
        allowed = error * (len(wheels) + 1)
        if read is None or added is None or abs(read - added) <= allowed + 1e-9:
            continue
        rule = (
            f"must be what its {len(wheels)} wheels add up to, {shown(added)} kg, within {shown(allowed)} kg"
        )
        slip = shown(round(abs(read - added), 3))
        remedy = f"look for a slip of {slip} kg or weigh again; scale_error is what one reading may be out"
        yield Problem(file, f"weighed.{key}", rule, shown(read), remedy)


def _raised(raw: Raw, weighed: Raw, file: str) -> Iterator[Problem]:
    """Readings with an axle raised that no car can give, or that contradict the height as written."""
    level, raised, wheelbase = _level(weighed), _raised_axle(weighed), figure(raw.get("wheelbase"))
    if raised is None or level is None or wheelbase is None or wheelbase <= 0.0:
        return
    if raised.height >= wheelbase:
        rule = f"must be below the wheelbase {shown(wheelbase)}"
        remedy = "give how much higher the raised wheels stand than the others"
        yield Problem(file, "weighed.raised.height", rule, shown(raised.height), remedy)
        return
    height = height_of_mass(level, raised, wheelbase)
    other = "rear" if raised.axle == "front" else "front"
    if not bounds.HEIGHT_OF_MASS.low <= height <= bounds.HEIGHT_OF_MASS.high:
        more = gained(level, raised)
        rule = f"puts the centre of mass at {height:.0f} mm above ground, which no car has"
        found = f"the {other} axle {'gains' if more >= 0.0 else 'loses'} {abs(more):.1f} kg"
        remedy = f"read the two scales under the {other} axle again ({found}), suspension locked, brakes off"
        yield Problem(file, "weighed.raised.load", rule, shown(raised.load), remedy)
        return
    written = figure(weighed.get("height_of_mass"))
    if written is not None and abs(written - height) > HEIGHTS_AGREE:
        rule = (
            f"must agree within {HEIGHTS_AGREE:.0f} mm with the {height:.0f} mm that [weighed.raised] gives"
        )
        remedy = "leave out the one you trust less"
        yield Problem(file, "weighed.height_of_mass", rule, shown(written), remedy)


def _level(weighed: Raw) -> CornerWeights | None:
    """The four readings, None where one of them is no weight."""
    left, right, rear_left, rear_right = (figures_sum(weighed, (wheel,)) for wheel in WHEELS["gross"])
    if left is None or right is None or rear_left is None or rear_right is None:
        return None
    return CornerWeights(left, right, rear_left, rear_right)


def _raised_axle(weighed: Raw) -> RaisedAxle | None:
    """The readings with an axle raised, None where something of them is not as it must be."""
    said = table(weighed, "raised")
    height, load, radius = (figures_sum(said, (key,)) for key in ("height", "load", "wheel_radius"))
    axle = said.get("axle")
    if height is None or load is None or radius is None or height < bounds.RAISE.low:
        return None
    if axle == "front":
        return RaisedAxle("front", height, load, radius)
    return RaisedAxle("rear", height, load, radius) if axle == "rear" else None


def _already_over(weighed: Raw, limits: Raw, file: str) -> Iterator[Problem]:
    """Limits that the stripped car breaks before anything is fitted."""
    for key, wheels in WHEELS.items():
        limit, reading = figures_sum(limits, (key,)), figures_sum(weighed, wheels)
        if limit is not None and reading is not None and limit < reading:
            rule = f"must not be below what the stripped car already weighs there, {shown(reading)} kg"
            remedy = "read the maker's plate and the scales again"
            yield Problem(file, f"limits.{key}", rule, shown(limit), remedy)
