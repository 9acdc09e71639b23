"""The electrics of a layout as electrics.json has them. [mm], [V], [A], [ohm], [W], [kg], [kWh]"""

import json

from boxfit.bay import Vector
from boxfit.box.wiring.figures import Electrics
from boxfit.box.wiring.told import wiring_notes
from boxfit.box.wiring.wiring import LinkCable
from boxfit.electrics.pack import IMPULSE
from boxfit.standards.cable_entry import BEND

Data = dict[str, object]
ABOUT = (
    "A working aid. High voltage kills: trained people only, to local codes; isolate, lock off, prove dead.",
    "Lengths square to the car; x forward, y left, z up; mm, V, A, ohm, W, kg, kWh.",
    "Strings run from minus to plus; module numbers are those of all lists and pictures.",
)


def electrics_bytes(found: Electrics) -> bytes:
    """The text of electrics.json: the same electrics give the same bytes."""
    text = json.dumps(electrics_as_data(found), indent=2, ensure_ascii=False, allow_nan=False)
    return (text + "\n").encode()


def electrics_as_data(found: Electrics) -> Data:
    """Strings, modules, volts and amperes, boxes, link cables, and what the maker should know."""
    return {"about": list(ABOUT)} | _strings(found) | _volts(found) | _boxes(found)


def _strings(found: Electrics) -> Data:
    """How the strings run, and what lies between touching modules."""
    pack = found.wiring.pack
    return {
        "series": found.pack.series,
        "parallel": found.pack.parallel,
        "junction": _at(pack.junction),
        "link": _tidy(pack.link),
        "link_proven": pack.proven,
        "strings": [{"number": n, "modules": list(one)} for n, one in enumerate(pack.strings, start=1)],
        "modules": [
            {"number": one.number, "box": found.boxes[one.box].name, "terminals": _at(one.at)}
            for one in pack.modules
        ],
        "touching": {
            "modules": list(pack.steepest) if pack.steepest else [],
            "volts": _tidy(found.touching),
            "volts_live_parts": _tidy(found.touching_live),
        },
    }


def _volts(found: Electrics) -> Data:
    """Volts, amperes, and what they ask for."""
    return {
        "volts": {
            "empty": _tidy(found.volts.empty),
            "nominal": _tidy(found.volts.nominal),
            "full": _tidy(found.volts.full),
        },
        "windows": [
            {
                "name": one.name,
                "low": one.low,
                "high": one.high,
                "left_below": _tidy(one.left_below),
                "left_above": _tidy(one.left_above),
            }
            for one in found.windows
        ],
        "amperes": _amperes(found),
        "split": {
            "before": found.split.before,
            "after": found.split.after,
            "volts_before": _tidy(found.split.volts_before),
            "volts_after": _tidy(found.split.volts_after),
        },
        "insulation": _insulation(found),
    }


def _boxes(found: Electrics) -> Data:
    """Boxes and the cables between them."""
    return {
        "boxes": [
            {
                "name": one.name,
                "modules": one.modules,
                "energy": _tidy(one.energy),
                "service_disconnect": one.has_disconnect,
            }
            for one in found.boxes
        ],
        "cable": {
            "section": found.wiring.cable.section,
            "across": found.wiring.cable.across,
            "inside_bend": BEND * found.wiring.cable.across,
        },
        "cables": [_cable(found, one) for one in found.wiring.cables],
        "notes": list(wiring_notes(found)),
    }


def _amperes(found: Electrics) -> Data | None:
    given = found.amperes
    if given is None:
        return None
    return {
        "continuous": _tidy(given.continuous),
        "peak": _tidy(given.peak),
        "module_continuous": _tidy(given.module_continuous),
        "module_peak": _tidy(given.module_peak),
        "drive": {one.kind: _tidy(one.drawn) for one in found.loads},
    }


def _insulation(found: Electrics) -> Data | None:
    asked = found.insulation
    if asked is None:
        return None
    return {
        "class_b": asked.class_b,
        "isolation": _tidy(asked.isolation),
        "isolation_together": _tidy(asked.isolation_together),
        "creepage": _tidy(asked.creepage),
        "creepage_reinforced": _tidy(asked.creepage_reinforced),
        "clearance": _tidy(asked.clearance),
        "impulse": IMPULSE,
    }


def _cable(found: Electrics, one: LinkCable) -> Data:
    """One link cable; without a way it has neither length nor mass."""
    told: Data = {"name": one.name, "from": one.start, "to": one.end, "carries": one.conductor.what}
    told["entries_placed"] = [entry.is_placed for entry in one.entries if entry is not None]
    if one.route is None:
        return told
    sums = found.sums(one, one.route)
    carried = found.carried(one)
    return told | {
        "points": [_at(point) for point in one.route.points],
        "length": _tidy(one.route.length),
        "mass": _tidy(one.mass),
        "amperes": None if carried is None else _tidy(carried),
        "ohm_20": _tidy(sums.cold, 9),
        "ohm_70": _tidy(sums.warm, 9),
        "drop_70": None if sums.drop_warm is None else _tidy(sums.drop_warm),
        "heat_70": None if sums.heat_warm is None else _tidy(sums.heat_warm),
        "clashes": [
            {
                "with": clash.what,
                "at": _at(clash.at),
                "distance": _tidy(clash.distance),
                "needed": clash.needed,
            }
            for clash in one.clashes
        ],
        "passages": [{"bay": each.bay, "through": each.through, "at": _at(each.at)} for each in one.passages],
        "unsurveyed": _tidy(one.unsurveyed),
    }


def _at(place: Vector) -> list[float]:
    return [_tidy(along) for along in place]


def _tidy(figure: float, places: int = 6) -> float:
    """Rounded, and zero without a sign."""
    return round(float(figure), places) + 0.0
