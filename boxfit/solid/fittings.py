"""What is fixed to boxes as bodies: strips and bought parts; strips cut and folded alike share one form."""

from dataclasses import dataclass, replace

from boxfit.bay import Vector
from boxfit.box.fitting import Bought, Strip
from boxfit.solid.body import Body, Form
from boxfit.solid.bought import bought_shape
from boxfit.solid.colours import COLOURS
from boxfit.solid.strip import strip_shape


class StripForms:
    """The forms of strips, each made where the first of its kind stands."""

    def __init__(self) -> None:
        self._made: dict[Strip, tuple[Vector, Form]] = {}

    def body(self, strip: Strip) -> Body:
        """The strip in its place."""
        key = _alike(strip)
        if key not in self._made:
            form = Form(strip.name, strip_shape(strip), COLOURS[strip.kind])
            self._made[key] = (strip.start, form)
        start, form = self._made[key]
        x, y, z = (here - there for here, there in zip(strip.start, start, strict=True))
        return Body(strip.name, form, (x, y, z))


def _alike(strip: Strip) -> Strip:
    """The strip without its name and place, its sizes rounded so that noise parts nothing."""
    return replace(
        strip,
        name="",
        start=(0.0, 0.0, 0.0),
        width=round(strip.width, 6),
        legs=tuple((looks, round(length, 6)) for looks, length in strip.legs),
        holes=tuple(
            replace(hole, along=round(hole.along, 6), across=round(hole.across, 6)) for hole in strip.holes
        ),
        notes=(),
    )


@dataclass(frozen=True)
class MadeBought:
    """A bought part as a body, and as it was placed."""

    body: Body
    placed: Bought


def made_bought(box: str, parts: tuple[Bought, ...]) -> tuple[MadeBought, ...]:
    """The bought parts of a box under names of their own: those alike are numbered."""
    names = [part.name for part in parts]
    made: list[MadeBought] = []
    for place, part in enumerate(parts):
        number = f" {names[: place + 1].count(part.name)}" if names.count(part.name) > 1 else ""
        name = f"{box} {part.name}{number}"
        form = Form(name, bought_shape(part), COLOURS["bought part"])
        made.append(MadeBought(Body(name, form), part))
    return tuple(made)
