"""What a car file said of the pulls that its boxes must stay put under: a rule set's name, or factors [g]."""

from typing import Annotated

from pydantic import ValidationInfo, field_validator

from boxfit.car import PullFactors
from boxfit.files import bounds
from boxfit.files.kinds import choice, number, wrong
from boxfit.files.said import Said
from boxfit.standards.load_factors import RULE_SETS

RuleSetWord = Annotated[str, choice(tuple(RULE_SETS))]
Factor = Annotated[float, number(bounds.PULL_FACTOR)]


class SaidFactors(Said):
    """The user's own factors [g], each way."""

    front: Factor
    rear: Factor
    side: Factor
    up: Factor
    down: Factor


class SaidRetention(Said):
    """A [retention] table."""

    rules: RuleSetWord | None = None
    factors: SaidFactors | None = None

    @field_validator("factors")
    @classmethod
    def _own_or_named(cls, factors: SaidFactors | None, info: ValidationInfo) -> SaidFactors | None:
        if factors and info.data.get("rules"):
            raise wrong("must not stand beside rules", "leave one of the two out")
        if factors and not any(factors.model_dump().values()):
            raise wrong("must not all be 0", "leave [retention] out for the usual rules")
        return factors


def retention_believed(said: SaidRetention) -> str | PullFactors:
    """The rule set's name, empty for the usual one, or the user's own factors."""
    return PullFactors(**said.factors.model_dump()) if said.factors else said.rules or ""
