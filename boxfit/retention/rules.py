"""Which rule set a car's boxes must stay put under."""

from boxfit.car import Car, PullFactors
from boxfit.standards.load_factors import RULE_SETS, USUAL_RULE_SET, LoadFactors

OWN = "own factors"


def rules_of(car: Car) -> LoadFactors:
    """The rules named in the car's file, its own factors, or the usual rules. Raises KeyError for a name that
    no rule set has; reading has refused it."""
    said = car.retention
    if isinstance(said, PullFactors):
        source = f"[retention] in car.toml, what it leaves out by {said.rules or USUAL_RULE_SET}"
        return LoadFactors(
            OWN, said.front, said.rear, said.side, said.up, said.down, source, "the user's own"
        )
    return RULE_SETS[said or USUAL_RULE_SET]
