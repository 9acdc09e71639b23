"""What the way in costs: boxes that would stand in a bay but do not go straight in, and what would help."""

from dataclasses import replace

from boxfit.search.bay import BaySearch
from boxfit.search.option import polygons
from boxfit.search.pack import PackSearch
from boxfit.space.tilt import way_in
from boxfit.space.tilt_words import told_lines


def at_the_opening(search: PackSearch) -> tuple[str, ...]:
    """Sentences for every bay whose opening keeps modules out; none where the way in costs nothing.

    Bays surveyed by very many triangles are not looked at: trying every tilt there takes too long.
    """
    sentences: list[str] = []
    ways = []
    for bay in search.bays:
        if bay.bay.opening is None:
            continue
        if bay.is_dense:
            sentences.append(
                f"{bay.bay.name}: whether the opening keeps modules out, and tilting would help, is not"
                " looked at where a survey is so fine; a prism or sections of the same bay would tell."
            )
            continue
        shut_in = BaySearch(replace(bay.bay, opening=None), search.module)
        if shut_in.best is None or shut_in.most <= bay.most:
            continue
        box = shut_in.best
        places = polygons(shut_in.rooms.at(box.stack, box.bottom).places(box.size.width, box.size.depth))
        middle = max(places, key=lambda place: place.area).representative_point()
        stands = box.placed(middle.x, middle.y)
        sentences.append(
            f"{bay.bay.name}: {shut_in.most} modules would stand here, but no more than {bay.most} get in"
            " straight through the opening in one box."
        )
        ways.append(way_in(bay.bay, stands.low, stands.high))
    return (*sentences, *told_lines(tuple(ways)))
