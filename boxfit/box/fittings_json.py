"""What is fixed to every box as fittings.json has it. [mm], [kg]"""

import json
from collections.abc import Sequence

from boxfit.bay import Block, Vector
from boxfit.box.built import BuiltBox
from boxfit.box.fitting import Bought, Cutout, Fastener, Strip

Data = dict[str, object]


def fittings_bytes(built: Sequence[BuiltBox]) -> bytes:
    """The text of fittings.json: the same boxes give the same bytes."""
    return (
        json.dumps(fittings_as_data(built), indent=2, ensure_ascii=False, allow_nan=False) + "\n"
    ).encode()


def fittings_as_data(built: Sequence[BuiltBox]) -> Data:
    """Bought parts, strips, cutouts and fasteners of every box, in the order of the layout."""
    return {"boxes": [_box(one) for one in built]}


def _box(one: BuiltBox) -> Data:
    own = one.parts.fittings
    return {
        "bay": one.bay.name,
        "number": one.number,
        "name": one.parts.name,
        "bought": [_bought(each) for each in own.bought],
        "strips": [_strip(each) for each in own.strips],
        "cutouts": [_cutout(each) for each in one.parts.tray.cutouts],
        "fasteners": [_fastener(each) for each in own.fasteners],
        "notes": list(own.notes),
    }


def _bought(one: Bought) -> Data:
    return {
        "kind": one.kind,
        "name": one.name,
        "looks": one.looks,
        "at": _corner(one.at),
        "body": _block(one.body),
        "keeps": _block(one.keeps),
        "about": one.about,
        "mass": _tidy(one.mass),
    }


def _strip(one: Strip) -> Data:
    return {
        "kind": one.kind,
        "name": one.name,
        "material": one.material,
        "thickness": _tidy(one.thickness),
        "radius": _tidy(one.radius),
        "start": _corner(one.start),
        "along": one.along,
        "width": _tidy(one.width),
        "legs": [{"way": way, "length": _tidy(length)} for way, length in one.legs],
        "inwards": one.inwards,
        "rounded": _tidy(one.rounded),
        "holes": [
            {
                "leg": hole.leg,
                "along": _tidy(hole.along),
                "across": _tidy(hole.across),
                "diameter": _tidy(hole.diameter),
            }
            for hole in one.holes
        ],
    }


def _cutout(one: Cutout) -> Data:
    return {
        "what": one.what,
        "looks": one.looks,
        "at": _corner(one.at),
        "diameter": _tidy(one.diameter),
        "size": [_tidy(side) for side in one.size],
        "corner": _tidy(one.corner),
    }


def _fastener(one: Fastener) -> Data:
    return {"what": one.what, "thread": one.thread, "count": one.count, "where": one.where}


def _block(block: Block) -> Data:
    return {"low": _corner(block.low), "high": _corner(block.high)}


def _corner(place: Vector) -> list[float]:
    return [_tidy(along) for along in place]


def _tidy(figure: float) -> float:
    """Rounded to a millionth, and zero without a sign.

    >>> _tidy(-1e-9)
    0.0
    """
    return round(float(figure), 6) + 0.0
