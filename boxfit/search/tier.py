"""One tier: which stances its height allows, and rectangles that stand for them in plan.

A module's plan is widened to a reserve so that reserves that do not overlap keep spacing and room between
the modules; the gap to the liner becomes a loss taken off the tray once. Where every stance has the same
room on an axis this is exact. Where they differ a second, wider model gives a bound that is never too low.
"""

from dataclasses import dataclass, replace

from boxfit.bay import BoxRules, Point, Vector
from boxfit.module import Module, Stance, stances
from boxfit.search.blocks import Footprint
from boxfit.search.raster import units


@dataclass(frozen=True)
class TierKind:
    """Tiers of one height [mm]: the tallest stance in it with its room on top, and all that stand in it."""

    height: float
    stances: tuple[Stance, ...]


@dataclass(frozen=True)
class PlanModel:
    """Reserves [units] of the stances and how they sit in the tray.

    `lead` [mm]: from a reserve's low corner to its module's body. `start` [mm]: from the liner to where
    reserves begin. `loss` [mm]: what the liner-to-liner width and depth lose before reserves are laid.
    Where rooms may be shared, `stances` and `lead` go on with every stance's partner, turned towards it;
    `partners` are the partners' reserves, never laid by themselves.
    """

    reserves: tuple[Footprint, ...]
    stances: tuple[Stance, ...]
    lead: tuple[Point, ...]
    start: Point
    loss: Point
    partners: tuple[Footprint, ...] = ()

    def reserve(self, kind: int) -> Footprint:
        """The reserve [units] of a kind, partners included."""
        return (self.reserves + self.partners)[kind]


def stance_height(stance: Stance) -> float:
    """Height [mm] of a standing module with its room on top."""
    return stance.size[2] + stance.room_high[2]


def tier_kinds(stances: tuple[Stance, ...]) -> tuple[TierKind, ...]:
    """A kind for every height worth having, lowest first.

    Of stances that differ only in which way a room looks, the one looking forward or left stands for all.
    A height is not worth having where each stance that needs it stands on a plan no smaller than one of a
    lower stance. Where rooms look sideways, each stance that needs the height also makes a kind of its own:
    alone its model is exact, beside others it may pay a spacing at the wall that it does not need.
    """
    facing: dict[tuple[object, ...], Stance] = {}
    for stance in stances:
        key = (stance.up, stance.length_along, stance.size, stance_height(stance))
        known = facing.get(key)
        if known is None or sum(stance.room_low[:2]) < sum(known.room_low[:2]):
            facing[key] = stance
    kept: list[Stance] = []
    for stance in sorted(facing.values(), key=stance_height):
        if not any(
            _stands_within(lower, stance) for lower in kept if stance_height(lower) < stance_height(stance)
        ):
            kept.append(stance)
    heights = sorted({stance_height(stance) for stance in kept})
    kinds = [
        TierKind(height, tuple(one for one in kept if stance_height(one) <= height)) for height in heights
    ]
    if any(one.room_low[:2] + one.room_high[:2] != (0.0,) * 4 for one in kept):
        kinds += [TierKind(stance_height(one), (one,)) for one in kept]
    return tuple(sorted(dict.fromkeys(kinds), key=lambda kind: kind.height))


def _stands_within(one: Stance, other: Stance) -> bool:
    """True where `one`, with its rooms, needs no more plan than `other` along both axes."""
    return all(
        one.size[axis] <= other.size[axis]
        and one.room_low[axis] <= other.room_low[axis]
        and one.room_high[axis] <= other.room_high[axis]
        for axis in (0, 1)
    )


def wall_gap(rules: BoxRules, lowest: bool, least: bool = False) -> float:
    """Gap [mm] from liner to module; on a floor also what keeps corners off the joint of floor and walls.

    A square module corner needs gap >= what fills the joint, less what the liner lifts it (common practice,
    no source): the bend of a folded tray, the bead where walls are welded to the floor. A folded tray has
    beads in the corners of its floor too, and is welded all round where it is no single blank: the greater
    counts. In a workshop of stepped boxes any tier may stand on a step floor, which is welded; `least` is
    the gap that no box of the rules, plain or stepped, can do with less than.

    >>> rules = BoxRules("pla", "folded", "rectangular", 2, 8, 20, 2, 10, 3, 4, 5, 1, 1)
    >>> wall_gap(rules, True), wall_gap(rules, False)
    (5, 4)
    """
    bead = rules.fold_shop.weld_bead if rules.process != "printed" and rules.thickness > 0.0 else 0.0
    bend = rules.bend_radius if rules.process == "folded" else 0.0
    steps = rules.shape == "stepped"
    on_floor = bead if steps and least else max(bend, bead)
    on_step = bead if steps and not least else 0.0
    return max(rules.gap, (on_floor if lowest else on_step) - rules.liner)


@dataclass(frozen=True)
class _AxisModel:
    """Along one axis: reserve [mm] before and after each body, start and loss [mm]."""

    before: tuple[float, ...]
    after: tuple[float, ...]
    start: float
    loss: float


def _axis(
    stances: tuple[Stance, ...], axis: int, gap: float, spacing: float, shared: bool = False
) -> _AxisModel:
    """Reserves that always keep spacing and room, at times with a little to spare.

    Where rooms are shared the wall's side is reckoned for a pair, which ends with a plain face: a room that
    looks at the wall then keeps what that lacks.
    """
    before = tuple(stance.room_low[axis] for stance in stances)
    after = tuple(max(stance.room_high[axis], spacing - min(before)) for stance in stances)
    start = max(max(gap, room) - room for room in before)
    end = max(max(gap, s.room_high[axis]) - a for s, a in zip(stances, after, strict=True))
    if shared:
        end = gap - spacing
        after = tuple(max(a, max(gap, s.room_high[axis]) - end) for s, a in zip(stances, after, strict=True))
    return _AxisModel(before, after, start, start + end)


def _wider_axis(
    stances: tuple[Stance, ...], axis: int, gap: float, spacing: float, shared: bool
) -> _AxisModel:
    """Reserves that no permitted arrangement can overlap, whichever way the rooms look.

    Of a room that may be shared each of the two keeps half.
    """
    across = 1 - axis
    roomy = [s for s in stances if s.room_low[axis] or s.room_high[axis]]
    if not roomy:
        return _axis(stances, axis, gap, spacing)
    if any(s.room_low[across] or s.room_high[across] for s in roomy):
        return _AxisModel((0.0,) * len(stances), (spacing,) * len(stances), 0.0, -spacing)
    part = 0.5 if shared else 1.0
    before = tuple(part * stance.room_low[axis] for stance in stances)
    after = tuple(part * stance.room_high[axis] for stance in stances)
    rooms = [s.room_low[axis] for s in stances] + [s.room_high[axis] for s in stances]
    least = min(max(gap, room) - part * room for room in rooms)
    return _AxisModel(before, after, least, 2 * least)


def _joined(stances: tuple[Stance, ...], x: _AxisModel, y: _AxisModel) -> PlanModel:
    reserves: dict[Footprint, tuple[Stance, Point]] = {}
    for place, stance in enumerate(stances):
        footprint = (
            units(x.before[place] + stance.size[0] + x.after[place]),
            units(y.before[place] + stance.size[1] + y.after[place]),
        )
        reserves.setdefault(footprint, (stance, (x.before[place], y.before[place])))
    for needless in [one for one in reserves if any(_within(other, one) for other in reserves)]:
        del reserves[needless]
    return PlanModel(
        reserves=tuple(reserves),
        stances=tuple(stance for stance, _ in reserves.values()),
        lead=tuple(lead for _, lead in reserves.values()),
        start=(x.start, y.start),
        loss=(x.loss, y.loss),
    )


def _within(small: Footprint, large: Footprint) -> bool:
    """True where the small footprint can stand in place of the large one, which is then never needed."""
    return small != large and small[0] <= large[0] and small[1] <= large[1]


def plan_model(kind: TierKind, module: Module, gap: float) -> PlanModel:
    """The model layouts are made with: whatever it allows keeps every allowance."""
    axes = [_axis(kind.stances, axis, gap, module.spacing, module.room_shared) for axis in (0, 1)]
    model = _joined(kind.stances, *axes)
    return _with_partners(model, module) if module.room_shared else model


def wider_model(kind: TierKind, module: Module, gap: float) -> PlanModel:
    """The model bounds are made with: whatever keeps every allowance, it allows."""
    axes = [_wider_axis(kind.stances, axis, gap, module.spacing, module.room_shared) for axis in (0, 1)]
    return _joined(kind.stances, *axes)


def _with_partners(model: PlanModel, module: Module) -> PlanModel:
    """Every stance once more, turned half round: it has the rooms of the first at the opposite faces."""
    partners = tuple(_partner(stance, module) for stance in model.stances)
    lead = tuple((partner.room_low[0], partner.room_low[1]) for partner in partners)
    reserves = tuple(
        (
            units(before[0] + partner.size[0] + max(partner.room_high[0], module.spacing)),
            units(before[1] + partner.size[1] + max(partner.room_high[1], module.spacing)),
        )
        for before, partner in zip(lead, partners, strict=True)
    )
    return replace(model, stances=model.stances + partners, lead=model.lead + lead, partners=reserves)


def _partner(stance: Stance, module: Module) -> Stance:
    """The module turned half round about the upright; the stance itself where it looks the same."""
    for other in stances(module):
        turned = (other.up, other.length_along) == (stance.up, stance.length_along)
        if turned and (other.room_low, other.room_high) == _half_round(stance):
            return other
    return stance


def _half_round(stance: Stance) -> tuple[Vector, Vector]:
    (x, y, z), (far_x, far_y, far_z) = stance.room_low, stance.room_high
    return (far_x, far_y, z), (x, y, far_z)
