"""Masses and limits: wheels, axles, margins, shares and centre of mass, before and after. [kg, mm]"""

from collections.abc import Iterator

from boxfit.papers.case import Case
from boxfit.papers.flow import Block, Heading, Points, Section, Words
from boxfit.papers.grid import Grid
from boxfit.report.as_built import as_built, pack_words
from boxfit.report.kept_text import FOR_IT, kept_mass
from boxfit.weight.corners import State, margins
from boxfit.weight.held import LEAST_OVER

WHEELS = ("front left", "front right", "rear left", "rear right")
LIMITS = ("front axle", "rear axle", "gross")


def masses(case: Case) -> Section:
    """The section of masses and limits."""
    return Section("Masses and limits", tuple(_blocks(case)))


def _blocks(case: Case) -> Iterator[Block]:
    states = case.states
    if not states:
        yield Words(
            "Missing: the stripped car was not weighed, so that no load on a wheel, no margin and no share "
            "can be told. Four readings under [weighed] in car.toml give it: front_left, front_right, "
            "rear_left, rear_right, and height_of_mass for the height."
        )
    else:
        yield loads_table(states)
        yield margins_table(case, states)
        yield from _findings(case, states)
        yield change_table(states)
        yield balance_table(case, states)
    yield Heading("What is counted")
    yield pack_table(case)
    yield Points((f"pack: {pack_words(case.pack, case.searched)}",))
    yield added_table(case)
    yield Points(tuple(_notes(case)))


def loads_table(states: tuple[State, ...]) -> Grid:
    """What each wheel and axle carries."""
    rows = []
    for state in states:
        loads = state.corners
        figures = (*loads.each, loads.front, loads.rear, loads.gross)
        rows.append((state.name, *(f"{load:.1f}" for load in figures)))
    heading = "Loads in kg: stripped is as weighed, all others are a forecast"
    return Grid(heading, ("state", *WHEELS, *LIMITS), tuple(rows), frozenset(range(1, 8)))


def margins_table(case: Case, states: tuple[State, ...]) -> Block:
    """Each limit with what is left of it in each state."""
    found = {state.name: {one.what: one for one in margins(state, case.car.limits)} for state in states}
    told = [what for what in LIMITS if any(what in each for each in found.values())]
    if not told:
        return Words("Missing: no limit of the maker's plate is told; [limits] in car.toml gives them.")
    rows = tuple(
        (
            what,
            f"{found[states[0].name][what].limit:.1f}",
            *(margin_words(found[state.name][what].left) for state in states),
        )
        for what in told
    )
    columns = ("limit", "limit kg", *(f"left {state.name}" for state in states))
    heading = "Limits of the maker's plate in kg and what is left of them, state by state"
    return Grid(heading, columns, rows, frozenset(range(1, 2 + len(states))))


def margin_words(left: float) -> str:
    """What is left of a limit [kg], or by how much it is broken.

    >>> margin_words(12.34), margin_words(-3.0)
    ('+12.3', 'OVER BY 3.0')
    """
    return f"{left:+.1f}" if left >= -LEAST_OVER else f"OVER BY {-left:.1f}"


def _findings(case: Case, states: tuple[State, ...]) -> Iterator[Block]:
    """What misses its target or its limit as built."""
    found = as_built(case.car, case.layout, case.pack, states)
    if found:
        yield Points(found)


def change_table(states: tuple[State, ...]) -> Grid:
    """What each wheel gains over the stripped car, for whoever sets the springs."""
    rows = tuple(
        (state.name, *(f"{load + 0.0:+.1f}" for load in state.corners.less(states[0].corners).each))
        for state in states[1:]
    )
    heading = "Change of each wheel's load over the stripped car in kg, for whoever sets the springs"
    return Grid(heading, ("state", *WHEELS), rows, frozenset(range(1, 5)))


def balance_table(case: Case, states: tuple[State, ...]) -> Grid:
    """Shares and the centre of mass."""
    rows = []
    for state in states:
        x, y, z = state.centre
        height = "not known" if z is None else f"{z:.0f}"
        shares = (state.front_share, state.left_share, state.corners.cross_share)
        rows.append((state.name, *(f"{share:.3f}" for share in shares), f"{x:.0f}", f"{y:.0f}", height))
    target = case.car.target
    wanted = (
        f"; target front share {target.front_share:g} give or take {target.tolerance:g}"
        f" with {', '.join(target.aboard) or 'nobody aboard'}"
        if target
        else ""
    )
    columns = ("state", "front share", "left share", "cross share", "x mm", "y mm", "z mm")
    heading = f"Shares and centre of mass{wanted}"
    return Grid(heading, columns, tuple(rows), frozenset(range(1, 7)))


def pack_table(case: Case) -> Grid:
    """Every box filled."""
    rows = tuple(
        (box.name, f"{box.mass:.1f}", *(f"{along:.0f}" for along in box.at)) for box in case.pack.boxes
    )
    columns = ("of the pack", "kg", "x mm", "y mm", "z mm")
    return Grid("", columns, rows, frozenset((1, 2, 3, 4)))


def added_table(case: Case) -> Block:
    """What is fitted beside the pack, and what is carried."""
    car = case.car
    told = [("fitted", one) for one in car.fitted] + [("carried", one) for one in car.carried]
    if not told:
        return Words(
            "Missing: nothing fitted or carried is told; [[fitted]] and [[carried]] in car.toml give it."
        )
    rows = tuple(
        (one.name, how, f"{one.mass:.1f}", *(f"{along:.0f}" for along in one.at)) for how, one in told
    )
    return Grid("", ("beside the pack", "", "kg", "x mm", "y mm", "z mm"), rows, frozenset((2, 3, 4, 5)))


def _notes(case: Case) -> Iterator[str]:
    """How the figures came about."""
    yield (
        "x forwards from the front axle, y to the left, z up from the ground; loads by the lever rule, and "
        "each axle's two wheels by its own track as if the car did not twist"
    )
    if case.layout.reserve:
        yield (
            f"the layout was searched with {kept_mass(case.layout):.1f} kg kept for {FOR_IT}, so that limits "
            "and target hold with everything on"
        )
    if case.car.weighed is not None and case.car.weighed.raised is not None:
        yield (
            "the height of the stripped car's centre of mass is from weighing with one axle raised: "
            "springs locked, brakes off; ISO 10392 itself was not read"
        )
    yield "weigh the finished car on four scales: boxfit weigh sets the readings against this forecast"
