"""One way to fill one car, as a row among others: the figures that tables, files and pages show alike."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from boxfit.bay import Bay
from boxfit.box_shape import area
from boxfit.car import Car
from boxfit.layout import Layout, PlacedBox
from boxfit.module import Module
from boxfit.report.balance import all_aboard
from boxfit.report.bands import bands
from boxfit.report.cost import cost_of, sheet_masses
from boxfit.report.parts import boxes_of
from boxfit.report.room import LITRE, surveyed_litres
from boxfit.weight.demands import SHARE_STEP

Variation = tuple[tuple[str, str], ...]
"""What was changed in the car's files: each key with its value, as they are told."""


@dataclass(frozen=True)
class LimitMargin:
    """What is left [`unit`] to one limit that the car sets; below 0 only where the target is missed."""

    limit: str
    left: float
    unit: str


@dataclass(frozen=True)
class BayShare:
    """What one bay holds: modules and boxes, litres [l] as surveyed and left, least height left [mm].

    `litres_left` are those of the room as surveyed less the outsides of its boxes, flanges and what is
    fixed to them not taken off, nor keep-outs. `height_left` lies between the highest box and where the bay's
    own distance begins, None without boxes.
    """

    bay: str
    modules: int
    boxes: int
    litres: float
    litres_left: float
    height_left: float | None


@dataclass(frozen=True)
class CompareRow:
    """One module in one car, changed by `variation`; all figures are None or empty where nothing fits.

    Energy [kWh], `mass` [kg] of modules and boxes together, `energy_by_mass` [kWh/kg], volts [V] of the whole
    string, `share_error` [-] from the front share wanted, None where none is; corners of all boxes added up.
    `sheet_mass` [kg] is the net mass of the boxes' sheet parts, offcuts not counted; `cost` that of modules
    and of that sheet, in whatever money the files' prices are, None where a price is lacking. `reason` says
    why nothing fits, `notes` what the search noted. No layout beats one of the `best` in anything without
    falling behind it elsewhere.
    """

    module: str
    stem: str
    variation: Variation = ()
    reason: str = ""
    notes: tuple[str, ...] = ()
    count: int | None = None
    series: int | None = None
    parallel: int | None = None
    energy: float | None = None
    mass: float | None = None
    energy_by_mass: float | None = None
    volts_empty: float | None = None
    volts_nominal: float | None = None
    volts_full: float | None = None
    front_share: float | None = None
    share_error: float | None = None
    target_met: bool | None = None
    margins: tuple[LimitMargin, ...] = ()
    boxes: int | None = None
    corners: int | None = None
    height_left: float | None = None
    litres_left: float | None = None
    sheet_mass: float | None = None
    cost: float | None = None
    bound: int | None = None
    proven: bool | None = None
    best: bool = False
    bays: tuple[BayShare, ...] = ()

    @property
    def fits(self) -> bool:
        """Whether there is a layout at all."""
        return self.count is not None

    @property
    def name(self) -> str:
        """The module, and what was changed, in one line."""
        return ", ".join((self.module, *(f"{key}={value}" for key, value in self.variation)))


def row_that_fails(module: Module, variation: Variation, reasons: Sequence[str]) -> CompareRow:
    """The row of a module of which nothing fits."""
    return CompareRow(module.name, module.stem, variation, " ".join(reasons))


def row_of(car: Car, module: Module, layout: Layout, variation: Variation = ()) -> CompareRow:
    """The row of a layout of a module in the car, changed as `variation` tells."""
    mass = layout.weights.modules + layout.weights.boxes
    share, volts = layout.weights.front_share, module.voltage
    target = car.target.front_share if car.target else None
    bays = tuple(_share(bay, boxes_of(layout, bay)) for bay in car.bays)
    sheets = sheet_masses(car, layout)
    row = CompareRow(
        module=module.name,
        stem=module.stem,
        variation=variation,
        notes=layout.notes,
        count=layout.count,
        series=layout.series,
        parallel=layout.parallel,
        energy=layout.energy,
        mass=mass,
        energy_by_mass=layout.energy / mass,
        volts_empty=layout.series * volts.empty,
        volts_nominal=layout.series * volts.nominal,
        volts_full=layout.series * volts.full,
    )
    return replace(
        row,
        front_share=share,
        share_error=None if share is None or target is None else abs(share - target),
        target_met=layout.target_met,
        margins=limit_margins(car, module, layout),
        boxes=sum(bay.boxes for bay in bays),
        corners=sum(box.corners for bay in layout.bays for box in bay.boxes),
        height_left=min((bay.height_left for bay in bays if bay.height_left is not None), default=None),
        litres_left=sum(bay.litres_left for bay in bays),
        sheet_mass=sum(sheets.values()),
        cost=cost_of(car, module, layout),
        bound=layout.bound,
        proven=layout.proven,
        bays=bays,
    )


def limit_margins(car: Car, module: Module, layout: Layout) -> tuple[LimitMargin, ...]:
    """What is left to each limit: maker's plate with all aboard [kg], every window [V], the target [-]."""
    found: list[LimitMargin] = []
    loads, plate = all_aboard(car, layout), car.limits
    if loads is not None:
        laden = (
            ("front axle", plate.front_axle, loads.front),
            ("rear axle", plate.rear_axle, loads.rear),
            ("gross", plate.gross, loads.gross),
        )
        found += [LimitMargin(name, most - load, "kg") for name, most, load in laden if most is not None]
    for window in car.windows:
        empty, full = layout.series * module.voltage.empty, layout.series * module.voltage.full
        found.append(LimitMargin(f"{window.name} low end", empty - window.low, "V"))
        found.append(LimitMargin(f"{window.name} high end", window.high - full, "V"))
    share = layout.weights.front_share
    if car.target is not None and share is not None:
        left = car.target.tolerance - round(abs(share - car.target.front_share), SHARE_STEP)
        found.append(LimitMargin("front share", left, ""))
    return tuple(found)


def _share(bay: Bay, boxes: tuple[PlacedBox, ...]) -> BayShare:
    litres = surveyed_litres(bay)
    free = [bay.room.top - bay.distance - box.high[2] for box in boxes]
    return BayShare(
        bay=bay.name,
        modules=sum(len(box.modules) for box in boxes),
        boxes=len(boxes),
        litres=litres,
        litres_left=litres - sum(box_litres(box, bay) for box in boxes),
        height_left=min(free, default=None),
    )


def box_litres(box: PlacedBox, bay: Bay) -> float:
    """What a box takes of its bay [l]: floor, walls and lid, the flange left out."""
    return sum(area(part.outline) * (part.top - part.bottom) for part in bands(box, bay.box)) / LITRE
