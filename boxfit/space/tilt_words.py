"""What a box that does not go straight in lacks, and what would help: plain sentences."""

from collections.abc import Iterator

from boxfit.space.tilt import MOST_TILT_LACK, Split, WayIn

ALONG = {"x": "fore and aft", "y": "across the car", "z": "in height", None: "all round"}
ABOUT = {"x": "its fore-and-aft axis", "y": "its crosswise axis", "z": "its upright axis"}
CAUTION = (
    "A filled box that must be tilted needs a hoist with lifting points and room above to swing it: try it"
    " with a card mock-up first, flange and lid included. What stands outside the bay, bonnet and windscreen"
    " too, is not known here. A working aid."
)
FILL_IN_PLACE = (
    "An empty box tilted in and filled in its place spares the hoist, where hand and spanner have room."
)


def told(found: WayIn) -> tuple[str, ...]:
    """Sentences for a reader; none where the box goes straight in."""
    if found.straight:
        return ()
    sentences = [_straight(found), _tilted(found), *map(_split, found.splits)]
    return (*sentences, CAUTION, FILL_IN_PLACE) if found.tilted else tuple(sentences)


def _straight(found: WayIn) -> str:
    if found.shift is not None:
        return (
            f"{found.bay}: the box does not go straight in to its place;"
            f" a place {found.shift:.0f} mm from it would do."
        )
    if not found.lacks:
        return f"{found.bay}: no smaller box of this height goes straight in through the opening."
    ways = ", or ".join(f"{lack.by:.1f} mm smaller {ALONG[lack.axis]}" for lack in found.lacks)
    return f"{found.bay}: the box does not go straight in through the opening; it would if it were {ways}."


def _tilted(found: WayIn) -> str:
    if found.tilted and found.tilt_axis is not None:
        if found.greatest_angle == 0.0:
            return f"{found.bay}: it goes in level, moved sideways on the way."
        return (
            f"{found.bay}: it goes in tilted by about {found.greatest_angle:.0f} degrees about"
            f" {ABOUT[found.tilt_axis]}, {found.leading} end first."
        )
    if found.tilted_lacks is None or found.tilt_axis is None:
        return f"{found.bay}: tilted it does not go in either, not even {MOST_TILT_LACK:.0f} mm shorter."
    return (
        f"{found.bay}: tilted it does not go in either; about {found.tilted_lacks:.0f} mm shorter it would,"
        f" tilted about {ABOUT[found.tilt_axis]}."
    )


def _split(split: Split) -> str:
    head = f"Two boxes, each {split.size:.1f} mm {ALONG[split.axis]}, walls, liner and gaps included,"
    if split.lacks is None:
        return f"{head} would not go straight in however short: it is their other side that is too long."
    if split.lacks > 0.0:
        return f"{head} would not go straight in: each lacks {split.lacks:.1f} mm."
    if not split.together:
        return f"{head} would each go straight in, but both do not find room side by side with their flanges."
    return (
        f"{head} would go straight in and stand side by side; count the modules anew, some may not find room."
    )


def told_lines(found: tuple[WayIn, ...]) -> Iterator[str]:
    """The sentences of several boxes, each caution once."""
    yield from dict.fromkeys(sentence for one in found for sentence in told(one))
