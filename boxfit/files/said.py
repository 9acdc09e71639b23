"""What every table of a file is, and how its keys are held against one another.

Keys and meanings are those of the contract; a field left without a default must be there.
"""

from typing import ClassVar, Literal

from pydantic import BaseModel, ConfigDict, ValidationInfo

from boxfit.files import examples
from boxfit.files.kinds import wrong
from boxfit.files.shown import shown

Relation = Literal["below", "not below"]
_SPOKEN: dict[Relation, str] = {"below": "be below", "not below": "not be below"}


class Said(BaseModel):
    """A table of a file: unknown keys and unlike types are refused; the words under a key are its help."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True, use_attribute_docstrings=True)


class SaidFile(Said):
    """A whole file; `samples` hold an example of every key it may have."""

    samples: ClassVar[tuple[examples.Table, ...]]


def must_be(relation: Relation, other: str, value: float, info: ValidationInfo) -> None:
    """Refuses the value unless it is so related to the key `other`, where that one was readable."""
    if other not in info.data:
        return
    against = info.data[other]
    if not (value < against if relation == "below" else value >= against):
        raise wrong(f"must {_SPOKEN[relation]} {other} {shown(against)}", f"correct this or {other}")


def must_be_below_high(low: list[float], info: ValidationInfo) -> None:
    """Refuses a low corner that is not below the high one along every axis."""
    high = info.data.get("high", ())
    axes = [axis for axis, least, most in zip("xyz", low, high, strict=False) if least >= most]
    if axes:
        raise wrong(
            f"must be below high {shown(high)} along {' and '.join(axes)}",
            f"swap low and high along {axes[0]}",
        )
