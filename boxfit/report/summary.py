"""A layout in plain words for the terminal."""

from collections.abc import Iterator

from boxfit.bay import Bay
from boxfit.box.assembly import assembly
from boxfit.box.searched_pack import searched_pack
from boxfit.car import Car
from boxfit.layout import Layout, PlacedBox
from boxfit.module import Module
from boxfit.report.assembly_text import assembly_lines
from boxfit.report.balance import all_aboard, balance_words
from boxfit.report.cautions import cautions, laden_mass, voltage_class
from boxfit.report.columns import NAME, counted, listed, named, table, tenths
from boxfit.report.kept_text import kept_words, proven_with
from boxfit.report.margin_text import survey_words
from boxfit.report.margins import margins
from boxfit.report.numbering import Numbered, numbered, runs
from boxfit.report.order_of_boxes import order_lines
from boxfit.report.parts import boxes_of, flange_block
from boxfit.report.shape_words import shape_words, tier_extent
from boxfit.report.wheels_text import wheels_lines
from boxfit.weight.pack import Pack


def summary(car: Car, module: Module, layout: Layout, pack: Pack | None = None) -> str:
    """The whole answer: strings, what stands where, weights against limits, order of filling, cautions.

    `pack` is what was weighed of it as built; without it the wheels carry what the search weighs.
    At most 100 letters to a line, ends with a line feed. What is not known is said to be not known.
    """
    lines = [f"{layout.car} with {layout.module}", *_pack(module, layout), ""]
    for bay in car.bays:
        lines += [bay.name, *_bay(module, layout, bay), ""]
    lines += ["weights", *_weights(car, layout), ""]
    searched = searched_pack(car, module, layout)
    lines += ["on the wheels", *wheels_lines(car, layout, pack or searched, searched), ""]
    lines += ["margins", *listed(survey_words(margins(car, layout), car)), ""]
    if filling := (*order_lines(car, layout), *assembly_lines(assembly(car, module, layout))):
        lines += ["filling", *listed(filling), ""]
    if layout.notes:
        lines += ["notes", *listed(layout.notes), ""]
    if layout.alternatives:
        told = [f"{other.what}: {other.difference}" for other in layout.alternatives]
        lines += ["alternatives", *listed(told), ""]
    lines += ["cautions", *listed(cautions(car, module, layout))]
    return "\n".join(lines) + "\n"


def _pack(module: Module, layout: Layout) -> Iterator[str]:
    volts = module.voltage
    empty, nominal, full = (layout.series * value for value in (volts.empty, volts.nominal, volts.full))
    strings = f"{layout.series} in series x {layout.parallel} parallel"
    yield from named("count", f"{counted(layout.count, 'module')}, {strings}")
    yield from named("energy", f"{layout.energy:.4g} kWh, {layout.parallel * module.capacity:.0f} Ah")
    yield from named(
        "volts", f"{empty:.1f} empty, {nominal:.1f} nominal, {full:.1f} full (class {voltage_class(full)})"
    )
    if module.current:
        current = module.current
        lasting, peak = layout.parallel * current.continuous, layout.parallel * current.peak
        yield from named("amperes", f"{lasting:.0f} all the time, {peak:.0f} peak")
    yield from named("how good", how_good(layout))


def how_good(layout: Layout) -> str:
    """Whether more modules could go in, as far as the search knows."""
    with_it = proven_with(layout)
    if layout.proven:
        return f"proven{with_it}: no layout within the hard rules holds more than {layout.count}"
    if not layout.target_met:
        return "no layout found meets the target; of those that meet all else this is the nearest"
    return f"not proven{with_it}: more than {layout.bound} cannot go in, {layout.count} do"


def _bay(module: Module, layout: Layout, bay: Bay) -> Iterator[str]:
    boxes = boxes_of(layout, bay)
    if not boxes:
        yield "  stays empty"
    modules = [found for found in numbered(layout) if found.bay == bay.name]
    for number, box in enumerate(boxes, start=1):
        yield from named(f"box {number}", _box_words(bay, box))
        if box.is_stepped:
            yield from named("", f"{shape_words(box, bay.box)}, {counted(box.corners, 'corner')}")
        mass = laden_mass(module, bay, box)
        yield from named("", f"{mass:.1f} kg with its modules, cover plate and fastenings apart")
        yield from named("", f"front end at x {box.high[0]:.0f}, floor at z {box.low[2]:.0f} mm")
        for place in range(1, len(box.tiers) + 1):
            row = [found for found in modules if (found.box, found.tier) == (number, place)]
            yield from named(
                f"  tier {place}", "; ".join(filter(None, (_tier_words(row), tier_extent(box, place))))
            )


def _box_words(bay: Bay, box: PlacedBox) -> str:
    length, width, height = (high - low for low, high in zip(box.low, box.high, strict=True))
    lid = flange_block(box, bay.box)
    size = " x ".join(map(tenths, (length, width, height)))
    over = f"{tenths(lid.high[0] - lid.low[0])} x {tenths(lid.high[1] - lid.low[1])} over the flange"
    return f"{size} mm outside, {over}" + ("" if box.is_stepped else f", {box.corners} corners")


def _tier_words(row: list[Numbered]) -> str:
    """The modules of a tier by the way they stand."""
    ways: dict[tuple[str, str], list[int]] = {}
    for found in row:
        stance = found.module.stance
        ways.setdefault((stance.up, stance.length_along), []).append(found.number)
    words = [
        f"module{'s' if len(numbers) > 1 else ''} {runs(numbers)}, {up} up, {_lying(along)}"
        for (up, along), numbers in ways.items()
    ]
    return f"{len(row)}: " + "; ".join(words)


def _lying(along: str) -> str:
    return {"x": "length fore and aft", "y": "length across the car", "z": "length upright"}[along]


def _weights(car: Car, layout: Layout) -> Iterator[str]:
    weights = layout.weights
    yield from named("pack", f"{weights.modules:.1f} kg modules + {weights.boxes:.1f} kg boxes")
    if layout.reserve:
        yield from named("kept", f"{kept_words(layout)}; all loads below have it in them")
    yield from _loads(car, layout)
    if weights.front_share is not None:
        yield from named("front share", _target_words(car, layout))
    if weights.left_share is not None:
        yield from named("left share", f"{weights.left_share:.3f}")
    first, *rest = balance_words(car, layout)
    yield from named("balance point", first.removeprefix("balance point: "))
    for line in rest:
        yield from named("", line)


def _loads(car: Car, layout: Layout) -> Iterator[str]:
    """Axle loads as the target judges them and with everything aboard, against the maker's plate."""
    weights, laden = layout.weights, all_aboard(car, layout)
    if laden is None or weights.front_axle is None or weights.rear_axle is None:
        yield from named("axles", "not known, the car was not weighed")
        return
    rows = [("kg".ljust(NAME - 4), _aboard(car), "all aboard", "limit", "margin")]
    for name, judged, load, limit in (
        ("front axle", weights.front_axle, laden.front, car.limits.front_axle),
        ("rear axle", weights.rear_axle, laden.rear, car.limits.rear_axle),
        ("gross", weights.front_axle + weights.rear_axle, laden.gross, car.limits.gross),
    ):
        told = ("-", "-") if limit is None else (f"{limit:.0f}", f"{limit - load:+.0f}")
        rows.append((name, f"{judged:.0f}", f"{load:.0f}", *told))
    yield from table(rows)


def _aboard(car: Car) -> str:
    """Who is aboard when the target is judged, short enough for the head of a column."""
    names = car.target.aboard if car.target else ()
    words = "with " + ", ".join(names) if names else "nobody aboard"
    return words if len(words) <= 40 else f"with {len(names)} of those carried"


def _target_words(car: Car, layout: Layout) -> str:
    share, target = layout.weights.front_share, car.target
    if target is None:
        return f"{share:.3f}, no target given"
    met = "met" if layout.target_met else "MISSED"
    return f"{share:.3f}, target {target.front_share:.3f} give or take {target.tolerance:.3f}: {met}"
