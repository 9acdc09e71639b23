"""Whether boxes and modules stay put: lists of every check and force, and a few lines for the summary."""

import csv
import io
from collections.abc import Iterator
from math import isinf

from boxfit.box.retention.whole import BoxRetention, Pulled, Retention, factor_of
from boxfit.report.columns import listed, named
from boxfit.retention.use import Use, worst_first
from boxfit.standards.load_factors import PULLS, LoadFactors

HEADS = (
    "box",
    "item",
    "check",
    "pull",
    "load",
    "resistance",
    "unit",
    "utilisation",
    "passes",
    "rule",
    "what to change",
    "where the formula ends",
)
FORCE_HEADS = ("box", "pull", "what", "x", "y", "z", "force x", "force y", "force z", "mass", "factor")
TOLD = 3
"""So many different checks of a box are told in the summary."""
ENDLESS = "endless"
ASSUMED = (
    "Linear statics, no dynamics: a rigid box on equally stiff feet, modules held by nothing but walls, "
    "floor and hold-downs. Body sheet taken as DC01 (its grade is not known), holes three diameters from any "
    "edge; what the body is behind its sheet is not checked. Bolts class 8.8.",
    "A working aid, to be checked by a licensed engineer under local codes.",
)


def retention_csv(retention: Retention) -> str:
    """Every check under the pull that uses it most, the worst first over all boxes."""
    own = {(use.item, use.check): box.name for box in retention.boxes for use in box.uses}
    rows = (
        (
            own[use.item, use.check],
            use.item,
            use.check,
            use.pull,
            _figure(use.load),
            _figure(use.resistance),
            use.unit,
            _used(use),
            "yes" if use.passes else "no",
            use.rule,
            use.remedy,
            use.beyond,
        )
        for use in worst_first(retention.uses)
    )
    return _text(HEADS, rows)


def forces_csv(retention: Retention) -> str:
    """What pulls at each box [N] at its centre of mass [mm], and what each foot takes of it."""
    rows = (
        row
        for box in retention.boxes
        for pulled in box.pulled
        for row in _forces(box, pulled, retention.rules)
    )
    return _text(FORCE_HEADS, rows)


def _forces(box: BoxRetention, pulled: Pulled, rules: LoadFactors) -> Iterator[tuple[str, ...]]:
    """The load, then each fixing; none where they leave the box loose."""
    factor = factor_of(rules, pulled.pull)
    places = [f"{value:.3f}" for value in (*box.heavy.at, *pulled.load)]
    yield (box.name, pulled.pull, "load", *places, f"{box.heavy.mass:.4f}", f"{factor:g}")
    for held in pulled.held or ():
        figures = [f"{value + 0.0:.3f}" for value in (*held.fixing.at, *held.force)]
        yield (box.name, pulled.pull, held.fixing.name, *figures, "", "")


def retention_lines(retention: Retention) -> list[str]:
    """The block of the summary: the rules, how many checks pass, the worst of each box with its remedy."""
    rules, uses = retention.rules, retention.uses
    factors = ", ".join(f"{pull} {rules.factor(pull):g}" for pull in PULLS)
    passing = sum(use.passes for use in uses)
    lines = [f"retention by {rules.name}"]
    lines += named("pulls", f"{factors} g: {rules.source} ({rules.status})")
    if rules.remark:
        lines += named("", rules.remark)
    verdict = "" if passing == len(uses) else ": NOT SHOWN to hold; change it or have it proved"
    lines += named("checks", f"{passing} of {len(uses)} pass{verdict}; all in retention.csv")
    for box in retention.boxes:
        lines += listed([_words(box, use) for use in _worst(box)])
    lines += listed(ASSUMED)
    return lines


def _worst(box: BoxRetention) -> tuple[Use, ...]:
    """The most used of each different check, so that four feet alike count once."""
    found: dict[str, Use] = {}
    for use in worst_first(box.uses):
        found.setdefault(use.check, use)
    return tuple(found.values())[:TOLD]


def _words(box: BoxRetention, use: Use) -> str:
    item = use.item if use.item.startswith(box.name) else f"{box.name} {use.item}"
    used = "nothing bears it" if isinf(use.utilisation) else f"used to {100.0 * use.utilisation:.0f} %"
    words = f"{item}, {use.check} ({use.pull}): {used}"
    if isinf(use.utilisation):
        words += f", {use.rule}"
    return f"{words}; {use.remedy}" if use.remedy else words


def _used(use: Use) -> str:
    return ENDLESS if isinf(use.utilisation) else f"{use.utilisation:.3f}"


def _figure(value: float) -> str:
    return f"{value:.3f}" if abs(value) < 100.0 else f"{value:.0f}"


def _text(heads: tuple[str, ...], rows: Iterator[tuple[str, ...]]) -> str:
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(heads)
    writer.writerows(rows)
    return text.getvalue()
