"""What a car file said of the pulls that its boxes must stay put under: a rule set's name, or factors [g]."""

from typing import Annotated

from pydantic import ValidationInfo, field_validator

from boxfit.car import PullFactors
from boxfit.files import bounds
from boxfit.files.kinds import choice, number, wrong
from boxfit.files.said import Said
from boxfit.standards.load_factors import PULLS, RULE_SETS, USUAL_RULE_SET

RuleSetWord = Annotated[str, choice(tuple(RULE_SETS))]
Factor = Annotated[float, number(bounds.PULL_FACTOR)]


class SaidFactors(Said):
    """The user's own factors [g]; those of the rules where one is left out."""

    front: Factor | None = None
    """Forwards [g]."""
    rear: Factor | None = None
    """Backwards [g]."""
    side: Factor | None = None
    """To either side [g]."""
    up: Factor | None = None
    """Upwards [g]."""
    down: Factor | None = None
    """Downwards [g]."""

    def all_of(self, rules: str) -> PullFactors:
        """Every factor, with those of a rule set's name for what was left out."""
        usual = RULE_SETS[rules or USUAL_RULE_SET]
        said = {pull: getattr(self, pull) for pull in PULLS}
        kept = {pull: usual.factor(pull) if own is None else own for pull, own in said.items()}
        return PullFactors(rules, **kept)


class SaidRetention(Said):
    """A [retention] table."""

    rules: RuleSetWord | None = None
    """The rule set whose pulls are reckoned with."""
    factors: SaidFactors | None = None
    """Your own factors, times the weight; those of the rules where one is left out."""

    @field_validator("factors")
    @classmethod
    def _some_pull(cls, factors: SaidFactors | None, info: ValidationInfo) -> SaidFactors | None:
        if factors:
            whole = factors.all_of(info.data.get("rules") or "")
            if not any(getattr(whole, pull) for pull in PULLS):
                raise wrong("must not all be 0", "leave [retention] out for the usual rules")
        return factors


def retention_believed(said: SaidRetention) -> str | PullFactors:
    """The rule set's name, empty for the usual one, or the user's own factors."""
    return said.factors.all_of(said.rules or "") if said.factors else said.rules or ""
