"""mass.json and mass.csv: mass, centre and inertia of every part, module and box, of pack and car."""

import csv
import json
from collections.abc import Iterator
from io import StringIO
from pathlib import Path

from boxfit.solid.mass_properties import MassProperties
from boxfit.solid.weighed import WeighedBody, WeighedBox, WeighedCar

Entry = dict[str, object]
AXES = ("xx", "yy", "zz", "xy", "xz", "yz")
ABOUT = (
    "A working aid. x forward, y left, z up; origin on the ground, on the centre line, under the front axle.",
    "Inertia is about the body's own centre; mixed terms are -sum(m x y), -sum(m x z), -sum(m y z).",
    "Parts are homogeneous; figures are the solid's; 'by' gives the mass by closed form, solid and mesh.",
    "Modules and bought parts are taken as homogeneous blocks of the maker's mass.",
    "Link cables are taken as homogeneous: copper and cover by common practice; they are part of the pack.",
    "Point masses (stripped car, fitted, carried) have no inertia of their own; the car's lacks it.",
)


def write_mass_json(car: WeighedCar, path: Path) -> None:
    """Everything, box by box; kg, mm, kg mm2."""
    told = {
        "units": {"mass": "kg", "centre": "mm", "inertia": "kg mm2"},
        "about": list(ABOUT),
        "boxes": [_box(box) for box in car.boxes],
        "cables": [_body(cable) for cable in car.cables],
        "pack": _properties(car.pack),
        "point_masses": [
            {"name": point.name, "mass": _tidy(point.mass, 6), "centre": [_tidy(c, 3) for c in point.at]}
            for point in car.points
        ],
        "car": _properties(car.whole) if car.whole else None,
        "car_unknown": car.unknown,
    }
    path.write_text(json.dumps(told, indent=2, ensure_ascii=False) + "\n", encoding="utf-8")


def write_mass_csv(car: WeighedCar, path: Path) -> None:
    """One row for each body, box and total."""
    text = StringIO()
    rows = csv.writer(text, lineterminator="\n")
    rows.writerow(
        [
            "name",
            "kind",
            "material",
            "mass [kg]",
            *(f"centre {axis} [mm]" for axis in "xyz"),
            *(f"inertia {axes} [kg mm2]" for axes in AXES),
            *(f"mass by {way} [kg]" for way in ("closed form", "solid", "mesh")),
        ]
    )
    rows.writerows(_rows(car))
    path.write_text(text.getvalue(), encoding="utf-8")


def _rows(car: WeighedCar) -> Iterator[list[object]]:
    """The table from parts to car."""
    for box in car.boxes:
        for body in box.bodies:
            ways = [_tidy(mass, 6) for mass in _ways(body).values()]
            yield [body.name, body.kind, body.material or "", *_figures(body.properties), *ways]
        if box.empty:
            yield [box.name, "box, empty", "", *_figures(box.empty)]
        yield [box.name, "box with modules", "", *_figures(box.filled)]
    for cable in car.cables:
        yield [cable.name, cable.kind, "", *_figures(cable.properties)]
    yield ["pack", "total", "", *_figures(car.pack)]
    for point in car.points:
        yield [point.name, "point mass", "", *_figures(MassProperties(point.mass, point.at))]
    if car.whole:
        yield ["car with everything carried", "total", "", *_figures(car.whole)]


def _box(box: WeighedBox) -> Entry:
    """A box, its parts and its modules."""
    parts = [body for body in box.bodies if body.by]
    modules = [body for body in box.bodies if body.kind == "module"]
    bought = [body for body in box.bodies if not body.by and body.kind != "module"]
    return {
        "name": box.name,
        "parts": [_body(part) for part in parts],
        "bought": [_body(part) for part in bought],
        "modules": [_body(module) for module in modules],
        "empty": _properties(box.empty) if box.empty else None,
        "with_modules": _properties(box.filled),
    }


def _body(body: WeighedBody) -> Entry:
    """A part or a module."""
    told: Entry = {"name": body.name, "kind": body.kind}
    if body.by:
        told["material"] = body.material
    told.update(_properties(body.properties))
    if body.by:
        told["by"] = {way: _tidy(mass, 6) for way, mass in _ways(body).items()}
    return told


def _ways(body: WeighedBody) -> dict[str, float]:
    """The mass [kg] by each way it was found; none for a module."""
    if body.by is None:
        return {}
    return {"closed_form": body.by.closed_form, "solid": body.by.solid, "mesh": body.by.mesh}


def _properties(body: MassProperties) -> Entry:
    """Mass, centre and inertia under their names."""
    mass, x, y, z, *inertia = _figures(body)
    return {"mass": mass, "centre": [x, y, z], "inertia": dict(zip(AXES, inertia, strict=True))}


def _figures(body: MassProperties) -> list[float]:
    """To the milligram, the micrometre and 0.001 kg mm2: far finer than any sheet is made."""
    centre = [_tidy(figure, 3) for figure in body.centre]
    return [_tidy(body.mass, 6), *centre, *(_tidy(figure, 3) for figure in body.inertia)]


def _tidy(figure: float, places: int) -> float:
    """Rounded, and never a negative nought."""
    return round(figure, places) + 0.0
