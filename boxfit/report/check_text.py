"""What `boxfit check` tells: every bay in litres, its rules, and what is missing or odd."""

from collections.abc import Iterator

from boxfit.bay import Bay, Block, BoxRules, Keepout, Surface
from boxfit.car import Car, CornerWeights, RaisedAxle
from boxfit.report.columns import broken, counted
from boxfit.report.odd import odd_things
from boxfit.report.projection import extents
from boxfit.report.room import keepout_litres, kept, kept_from, surveyed_as, surveyed_litres, usable_litres
from boxfit.weight.raised_axle import RAISED_AXLE, height_error, height_of_mass


def check_text(car: Car) -> str:
    """Lines that start with their place in the files: first what was read, then what is missing or odd."""
    lines = [*_car(car), *(line for bay in car.bays for line in _bay(bay))]
    odd = odd_things(car)
    lines += ["", f"missing or odd: {len(odd)}" if odd else "nothing missing, nothing odd", *odd]
    return "\n".join(piece for line in lines for piece in broken(line, others="    ") or [""]) + "\n"


def _car(car: Car) -> Iterator[str]:
    tracks = f"track {car.track_front:g} front, {car.track_rear:g} rear"
    yield f"car.toml: {car.name}, wheelbase {car.wheelbase:g}, {tracks} mm"
    if car.weighed:
        weighed = car.weighed
        front, rear = weighed.front_left + weighed.front_right, weighed.rear_left + weighed.rear_right
        axles = f"{front:.1f} front, {rear:.1f} rear, front share {front / (front + rear):.3f}"
        yield f"car.toml: weighed: {front + rear:.1f} kg stripped, {axles}"
        if weighed.raised:
            yield f"car.toml: weighed.raised: {_raised(car, weighed, weighed.raised)}"
    for name, masses in (("fitted", car.fitted), ("carried", car.carried)):
        if masses:
            total = sum(mass.mass for mass in masses)
            yield f"car.toml: {name}: {total:.1f} kg, {counted(len(masses), 'entry', 'entries')}"
    for window in car.windows:
        yield f"car.toml: electrics: {window.name} {window.low:g} to {window.high:g} V"


def _raised(car: Car, weighed: CornerWeights, raised: RaisedAxle) -> str:
    """The height that weighing with an axle raised gives, and how far it may be out."""
    height = height_of_mass(weighed, raised, car.wheelbase)
    error = height_error(weighed, raised, car.wheelbase)
    return (
        f"centre of mass {height:.0f} mm above ground, give or take {error:.0f} with scales out by "
        f"{weighed.scale_error:g} kg ({RAISED_AXLE})"
    )


def _bay(bay: Bay) -> Iterator[str]:
    low, high = extents(bay)
    size = " x ".join(f"{round(b - a, 1):.10g}" for a, b in zip(low, high, strict=True))
    yield f"{bay.name}: survey: {surveyed_litres(bay):.1f} litres in {size} mm"
    yield from (f"{bay.name}: survey: {words}" for words in surveyed_as(bay))
    usable, keeps = usable_litres(bay), f"{round(kept(bay), 1):.10g}"
    yield (
        f"{bay.name}: survey: {'litres not worked out' if usable is None else f'{usable:.1f} litres'} after "
        f"{keeps} mm at every surface ({bay.tolerance:g} of it tolerance), keep-outs not taken off"
    )
    if bay.opening:
        hole = f"{len(bay.opening.outline)} corners" if bay.opening.outline else "the whole side"
        yield f"{bay.name}: opening: {bay.opening.way}, {hole}"
    for keepout in bay.keepouts:
        yield f'{bay.name}: keepout "{keepout.name}": {_keepout(keepout)}'
    for mount in bay.mounts:
        sheet = f"{mount.body_thickness:g} mm of body"
        hole = "to be drilled" if mount.drilled else "hole there already"
        yield f'{bay.name}: mount "{mount.name}": M{mount.bolt:g} in {sheet} that looks {mount.faces}, {hole}'
    if bay.box.asked:
        yield from _box(bay)


def _keepout(keepout: Keepout) -> str:
    solid = keepout.solid
    if isinstance(solid, Block):
        length, width, height = (b - a for a, b in zip(solid.low, solid.high, strict=True))
        shape = f"block {length:g} x {width:g} x {height:g}"
    elif isinstance(solid, Surface):
        length, width, height = (b - a for a, b in zip(solid.low, solid.high, strict=True))
        shape = f"{len(solid.triangles):,} triangles within {length:.0f} x {width:.0f} x {height:.0f}"
    else:
        shape = f"cylinder of diameter {solid.diameter:g}"
    words = [
        f"{keepout_litres(keepout):.1f} litres",
        f"{shape} mm",
        f"keeps {round(kept_from(keepout), 1):.10g} mm",
    ]
    words += [added for added in (keepout.reason, "negotiable" if keepout.negotiable else "") if added]
    return ", ".join(words)


def _box(bay: Bay) -> Iterator[str]:
    rules = bay.box
    yield (
        f"{bay.name}: box: {rules.material}, {rules.process}, {rules.shape}; thickness {rules.thickness:g}, "
        f"bend radius {rules.bend_radius:g}, lid {rules.lid_thickness:g}, flange {rules.flange:g} mm"
    )
    yield (
        f"{bay.name}: box: clearance {rules.clearance:g}, liner {rules.liner:g}, gap {rules.gap:g}, "
        f"headroom {rules.headroom:g} mm; at most {counted(rules.tiers, 'tier')}, "
        f"{counted(rules.boxes, 'box', 'boxes')}"
    )
    if rules.gasket_pressed:
        pressed = f"{rules.gasket_pressed:.1f} under the lid"
        yield f"{bay.name}: box: gasket {rules.gasket_width:g} x {rules.gasket_thickness:g} mm, {pressed}"
    if rules.bars_beside or rules.bars_below:
        yield (
            f"{bay.name}: box: room for stiffening bars {rules.bars_beside:g} mm beside the walls, "
            f"{rules.bars_below:g} mm below the floor"
        )
    if rules.cover_material:
        yield f"{bay.name}: box: cover plate of {rules.cover_material}"
    yield from (f"{bay.name}: box: {words}" for words in _shops(rules))


def _shops(rules: BoxRules) -> Iterator[str]:
    """What the shop brings that makes it; nothing of a box that is welded from plates."""
    shop, printer = rules.fold_shop, rules.print_shop
    if rules.process == "folded":
        own = shop.own_k(rules.thickness, rules.bend_radius)
        k = "K of DIN 6935" if own is None else f"K {own:g} of the shop's own"
        yield f"sheet {shop.sheet[0]:g} x {shop.sheet[1]:g}, folds up to {shop.brake:g} mm, {k}"
    if rules.process == "printed":
        bed = " x ".join(f"{side:g}" for side in printer.bed)
        yield f"bed {bed}, joints with {printer.joint:g} mm of air each side"
