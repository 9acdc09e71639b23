"""Fixings: how hard each box is pulled, how far every item is used, the worst first, and what would help."""

from collections.abc import Iterator

from boxfit.papers.case import Case
from boxfit.papers.flow import Block, Heading, Points, Section, Words
from boxfit.papers.grid import Grid
from boxfit.retention.fixings import Held
from boxfit.retention.use import Use
from boxfit.standards.lifting import WORKING_COEFFICIENT
from boxfit.standards.load_factors import LoadFactors

PASSES, FAILS = "passes", "FAILS"


def fixings(case: Case) -> Section:
    """The section of fixings."""
    return Section("Boxes and fixings under load factors", tuple(_blocks(case)))


def failing(case: Case) -> tuple[Use, ...]:
    """Every check that does not pass, the worst first."""
    return tuple(use for use in case.retention.uses if not use.passes)


def _blocks(case: Case) -> Iterator[Block]:
    rules, uses = case.retention.rules, case.retention.uses
    failed = failing(case)
    yield Words(_verdict(uses, failed))
    yield rules_table(rules)
    yield Points(tuple(_rule_notes(rules)))
    yield pulled_table(case)
    if failed:
        yield Heading("What does not pass, and what would")
        yield remedies_table(failed)
    yield Heading("Every check, the pull that uses it most, worst first")
    yield uses_table(uses)
    yield from _beyond(uses)
    yield rules_used(uses)


def _verdict(uses: tuple[Use, ...], failed: tuple[Use, ...]) -> str:
    """The whole in a line."""
    if not uses:
        return "Nothing could be checked: no part of any box has fixings."
    if failed:
        return (
            f"{len(failed)} of {len(uses)} checks do not pass; the worst is {failed[0].item}, "
            f"{failed[0].check}, at {percent(failed[0])}. As drawn these boxes are not shown to stay put: "
            "change what is told below."
        )
    most = f"{uses[0].item}, {uses[0].check}, at {percent(uses[0])}"
    return f"All {len(uses)} checks pass; the most used is {most}."


def percent(use: Use) -> str:
    """How far an item is used.

    >>> percent(Use("foot 1", "bolt", "front", 5.0, 10.0, "N", "by hand"))
    '50 %'
    """
    return "nothing bears it" if use.resistance <= 0.0 else f"{100.0 * use.utilisation:.0f} %"


def rules_table(rules: LoadFactors) -> Grid:
    """The factors each way."""
    factors = (rules.front, rules.rear, rules.side, rules.up, rules.down)
    row = tuple(f"{factor:g}" if factor else "not asked" for factor in factors)
    columns = ("rule set", "front", "rear", "side", "up", "down")
    heading = "Times its own weight that a box is pulled each way, g"
    return Grid(heading, columns, ((rules.name, *row),), frozenset(range(1, 6)))


def _rule_notes(rules: LoadFactors) -> Iterator[str]:
    yield f"source: {rules.source}; status: {rules.status}"
    if rules.remark:
        yield rules.remark
    yield (
        f"lifting lugs are not held to it: they bear {WORKING_COEFFICIENT:g} times their share of the box"
        " (directive 2006/42/EC, annex I 4.1.2.5, from memory), two of four carrying"
    )
    yield "which rule holds for the car is the authority's word; [retention] rules in car.toml chooses"


def pulled_table(case: Case) -> Grid:
    """The force on each box each way, and the fixing that takes most of it."""
    rows = []
    for box in case.retention.boxes:
        for one in box.pulled:
            force = sum(abs(along) for along in one.load)
            rows.append((box.name, one.pull, f"{force:.0f}", *_most(one.held or ())))
    columns = ("box, filled", "pull", "N", "fixing that takes most", "along its axis N", "across N")
    return Grid("Forces at the middle of the boxes", columns, tuple(rows), frozenset((2, 4, 5)))


def _most(held: tuple[Held, ...]) -> tuple[str, str, str]:
    if not held:
        return ("its fixings leave it free to move", "", "")
    most = max(held, key=lambda one: abs(one.pull) + one.across)
    return (most.fixing.name, f"{most.pull:+.0f}", f"{most.across:.0f}")


def remedies_table(failed: tuple[Use, ...]) -> Grid:
    """What fails with what to change."""
    rows = tuple(
        (use.item, use.check, use.pull, percent(use), use.remedy or "none is known here: ask the engineer")
        for use in failed
    )
    return Grid("", ("item", "check", "pull", "used", "what would pass"), rows, frozenset((3,)))


def uses_table(uses: tuple[Use, ...]) -> Block:
    """Every check."""
    if not uses:
        return Words("Missing: no item could be checked.")
    rows = tuple(
        (
            use.item,
            use.check,
            use.pull,
            quantity(use.load),
            quantity(use.resistance),
            use.unit,
            percent(use),
            PASSES if use.passes else FAILS,
        )
        for use in uses
    )
    columns = ("item", "check", "pull", "load", "bears", "unit", "used", "")
    return Grid("", columns, rows, frozenset((3, 4, 6)))


def quantity(value: float) -> str:
    """A load or a resistance, its decimals by its size.

    >>> quantity(1234.56), quantity(12.345), quantity(0.5)
    ('1235', '12.3', '0.50')
    """
    return f"{value:.0f}" if value >= 100.0 else f"{value:.1f}" if value >= 10.0 else f"{value:.2f}"


def _beyond(uses: tuple[Use, ...]) -> Iterator[Block]:
    """Figures outside of their formula's range."""
    told: dict[str, list[str]] = {}
    for use in uses:
        if use.beyond:
            told.setdefault(use.beyond, []).append(f"{use.item}, {use.check}")
    if told:
        yield Heading("Where a formula's range ends")
        yield Points(tuple(f"{'; '.join(items)}: {words}" for words, items in told.items()))


def rules_used(uses: tuple[Use, ...]) -> Block:
    """By which rule each kind of check was made."""
    rules = dict.fromkeys((use.check.split(" by ")[0], use.rule) for use in uses)
    if not rules:
        return Words("No rule was used.")
    return Grid("By which rule", ("check", "rule"), tuple(sorted(rules)))
