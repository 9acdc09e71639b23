"""Where the whole car balances, in the words a workshop uses."""

from boxfit.car import Car
from boxfit.layout import Layout
from boxfit.weight.balance import AxleLoads, front_part

DRIVER = "driver"


def ahead_of_driver(car: Car, layout: Layout) -> float | None:
    """How far the balance point lies ahead of the driver [mm], behind where negative.

    Old drivers' rule: the whole car's balance point lies at the driver's head, between the axles
    (common practice, no source). None where the car was not weighed or carries nobody named "driver".
    """
    centre = layout.weights.centre_of_mass
    drivers = [carried for carried in car.carried if carried.name.strip().casefold() == DRIVER]
    return None if centre is None or not drivers else centre[0] - drivers[0].at[0]


def all_aboard(car: Car, layout: Layout) -> AxleLoads | None:
    """Axle loads [kg] with everything carried, as the maker's plate judges them.

    The layout's own loads have only what the target asks for aboard. None where the car was not weighed.
    """
    weights = layout.weights
    if weights.front_axle is None or weights.rear_axle is None:
        return None
    aboard = car.target.aboard if car.target else ()
    front, rear = weights.front_axle, weights.rear_axle
    for carried in car.carried:
        if carried.name not in aboard:
            part = front_part(car, carried.at[0])
            front, rear = front + carried.mass * part, rear + carried.mass * (1.0 - part)
    return AxleLoads(front, rear)


def balance_words(car: Car, layout: Layout) -> tuple[str, ...]:
    """The balance point in one to three short lines; one line that says why where there is none."""
    centre = layout.weights.centre_of_mass
    if centre is None:
        return ("balance point: not known, the car was not weighed",)
    words = [f"{-centre[0]:.0f} mm behind the front axle, {sideways(centre[1])}"]
    distance = ahead_of_driver(car, layout)
    if distance is not None:
        words.append(from_driver(distance))
    if centre[2] is None:
        words.append("height not known (height_of_mass missing)")
    else:
        words.append(f"{centre[2]:.0f} mm above ground")
    return tuple(words)


def from_driver(distance: float) -> str:
    """A distance ahead of the driver [mm] in words.

    >>> from_driver(168.5), from_driver(-40)
    ('168 mm ahead of the driver', '40 mm behind the driver')
    """
    return f"{abs(distance):.0f} mm {'ahead of' if distance >= 0 else 'behind'} the driver"


def sideways(offset: float) -> str:
    """A sideways offset [mm] in words.

    >>> sideways(-12.3), sideways(0.2)
    ('12 mm right of the centre line', 'on the centre line')
    """
    if abs(offset) < 0.5:
        return "on the centre line"
    return f"{abs(offset):.0f} mm {'left' if offset > 0 else 'right'} of the centre line"
