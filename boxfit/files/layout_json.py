"""A layout as layout.json has it. [mm], [kg], [kWh]"""

import json

from boxfit.bay import Vector
from boxfit.car import PointMass
from boxfit.layout import Alternative, Layout, PlacedBox, PlacedModule, Tier, Weights

_PLACES = 6
"""Decimal places kept, so that the last bits of a sum never change the file."""

Data = dict[str, object]


def layout_bytes(layout: Layout) -> bytes:
    """The text of layout.json: the same layout gives the same bytes."""
    return (json.dumps(layout_as_data(layout), indent=2, ensure_ascii=False, allow_nan=False) + "\n").encode()


def layout_as_data(layout: Layout) -> Data:
    """The layout as plain tables, keys in the order of the contract."""
    return {
        "car": layout.car,
        "module": layout.module,
        **_figures(layout),
        "alternatives": [_alternative(one) for one in layout.alternatives],
        "notes": list(layout.notes),
    }


def _figures(layout: Layout) -> Data:
    """What the best layout and an alternative tell alike."""
    return {
        "count": layout.count,
        "series": layout.series,
        "parallel": layout.parallel,
        "energy": _tidy(layout.energy),
        "bound": layout.bound,
        "proven": layout.proven,
        "target_met": layout.target_met,
        "bays": [{"name": bay.name, "boxes": [_box(box) for box in bay.boxes]} for bay in layout.bays],
        "weights": _weights(layout.weights),
        **_reserve(layout.reserve),
    }


def _reserve(kept: tuple[PointMass, ...]) -> Data:
    """What was kept for fittings and cables, told only where something was."""
    told = [{"name": one.name, "mass": _tidy(one.mass), "at": _corner(one.at)} for one in kept]
    return {"reserve": told} if told else {}


def _alternative(one: Alternative) -> Data:
    return {"what": one.what, "difference": one.difference, **_figures(one.layout)}


def _box(box: PlacedBox) -> Data:
    return {
        "outside": {"low": _corner(box.low), "high": _corner(box.high)},
        "corners": box.corners,
        "modules": [_module(module) for module in box.modules],
        "tiers": [_tier(tier) for tier in box.tiers],
    }


def _tier(tier: Tier) -> Data:
    told: Data = {
        "stands_on": _tidy(tier.stands_on),
        "height": _tidy(tier.height),
        "count": len(tier.modules),
    }
    if tier.outline:
        told["outline"] = [[_tidy(x), _tidy(y)] for x, y in tier.outline]
    return told


def _module(module: PlacedModule) -> Data:
    stance = module.stance
    return {
        "low": _corner(module.low),
        "high": _corner(module.high),
        "up": stance.up,
        "length_along": stance.length_along,
        "faces": dict(zip("xyz", stance.faces, strict=True)),
    }


def _weights(weights: Weights) -> Data:
    centre = weights.centre_of_mass
    return {
        "front_axle": _known(weights.front_axle),
        "rear_axle": _known(weights.rear_axle),
        "gross": _known(weights.gross),
        "front_share": _known(weights.front_share),
        "left_share": _known(weights.left_share),
        "centre_of_mass": None if centre is None else [_known(along) for along in centre],
        "modules": _tidy(weights.modules),
        "boxes": _tidy(weights.boxes),
    }


def _corner(place: Vector) -> list[float]:
    return [_tidy(along) for along in place]


def _known(figure: float | None) -> float | None:
    return None if figure is None else _tidy(figure)


def _tidy(figure: float) -> float:
    """Rounded to a millionth, and zero without a sign.

    >>> _tidy(-1e-9), _tidy(0.1 + 0.2)
    (0.0, 0.3)
    """
    return round(float(figure), _PLACES) + 0.0
