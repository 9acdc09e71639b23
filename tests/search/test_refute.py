"""What refutations take for granted of a box's balance holds for every box there is."""

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from boxfit.bay import BoxRules
from boxfit.module import Module, stances
from boxfit.search.candidate import Candidate
from boxfit.search.pack import PackSearch
from boxfit.search.rectangle import Filling
from boxfit.search.refute import bay_spread, least_middle, refuted
from boxfit.search.stack import PlanSize, Stack
from boxfit.search.tier import tier_kinds
from boxfit.search.watch import Watch
from tests.report.samples import roadster
from tests.search.test_tier import modules, rules


@settings(max_examples=150)
@given(modules(), rules(), st.integers(20, 90), st.integers(20, 60), st.integers(1, 3), st.data())
def test_no_snug_box_has_its_modules_nearer_to_an_end(
    module: Module, box_rules: BoxRules, width: int, depth: int, tiers: int, data: st.DataObject
) -> None:
    """Full boxes, and boxes with any of their modules left out and the walls drawn in."""
    kinds = tier_kinds(stances(module))
    assume(kinds)
    stack = Stack(tuple(data.draw(st.sampled_from(kinds)) for _ in range(tiers)), module, box_rules)
    size = PlanSize(float(width), float(depth))
    fillings = stack.fillings(size, exactly=False)
    assume(all(filling.count for filling in fillings))
    kept = []
    for filling in fillings:
        some = st.lists(st.sampled_from(filling.placements), min_size=1, unique=True)
        placements = tuple(sorted(data.draw(some)))
        kept.append(Filling(len(placements), len(placements), placements))
    box = Candidate(stack, size, 100.0, tuple(kept)).trimmed()
    placed = box.placed(0.0, 0.0)
    wall = box_rules.thickness + box_rules.liner
    to_rear, to_front = [], []
    for gap, tier in zip(stack.gaps, placed.tiers, strict=True):
        for one in tier.modules:
            to_rear.append(one.low[0] - wall - max(gap, one.stance.room_low[0]))
            to_front.append(box.size.width - one.high[0] - wall - max(gap, one.stance.room_high[0]))
    assume(abs(min(to_rear)) < 1e-6 and abs(min(to_front)) < 1e-6)  # snug
    middles = [(one.low[0] + one.high[0]) / 2 for one in placed.modules]
    mean = sum(middles) / len(middles)
    least = least_middle(stack, box.size, box.count)
    assert least - 1e-6 <= mean <= box.size.width - least + 1e-6


def test_nothing_is_refuted_once_the_watch_is_over() -> None:
    """What would have been refuted is left unproven, and no bay is gone through to its end."""
    car, module, _ = roadster()
    shares = [(7, 5), (8, 4)]
    assert refuted(PackSearch(car, module), shares)
    watch = Watch()
    search = PackSearch(car, module, watch)
    watch.stop()
    rooms = search.bays[0].loose_rooms
    assert rooms is not None
    assert bay_spread(search.bays[0], rooms, 6) is None
    assert not refuted(search, shares)
