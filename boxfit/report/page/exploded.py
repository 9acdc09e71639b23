"""How far each part of a box moves in the exploded view."""

from boxfit.bay import Vector

APART = 1.2
"""What stands in the box is lifted by so many times its height above the floor, over two of the box."""
LIFTS = {"liner": 1.05, "gasket": 2.9, "lid": 3.2, "cover plate": 3.6, "disconnect cover": 4.0}
"""Parts lifted straight up, in heights of the box."""
INSIDE = frozenset({"module", "module room", "shelf", "hold-down", "hold-down bracket"})
OUTSIDE = frozenset(
    {
        "foot",
        "spreading plate",
        "stiffening bar",
        "doubler",
        "lifting lug",
        "cable housing",
        "housing cover",
        "housing block",
        "bought part",
    }
)
SIDEWAYS = 0.6
"""Parts outside move out by this share of the box's height, at least 100 mm."""


def push_of(kind: str, middle: Vector, low: Vector, high: Vector) -> Vector:
    """The full move [mm] of a part whose middle is at `middle`, of a box from `low` to `high` [mm].

    >>> push_of("lid", (0, 0, 200), (-100, -100, 0), (100, 100, 200))
    (0.0, 0.0, 640.0)
    >>> push_of("tray", (0, 0, 100), (-100, -100, 0), (100, 100, 200))
    (0.0, 0.0, 0.0)
    """
    height = high[2] - low[2]
    if kind in LIFTS:
        return (0.0, 0.0, LIFTS[kind] * height)
    centre = tuple((a + b) / 2 for a, b in zip(low, high, strict=True))
    x, y = middle[0] - centre[0], middle[1] - centre[1]
    if kind in INSIDE:
        return (0.35 * x, 0.35 * y, 2.0 * height + APART * (middle[2] - low[2]))
    if kind in OUTSIDE and _beside(middle, low, high):
        far = max(SIDEWAYS * height, 100.0)
        along = (x / max(high[0] - low[0], 1.0), y / max(high[1] - low[1], 1.0))
        if abs(along[0]) >= abs(along[1]):
            return (far if x > 0 else -far, 0.0, 0.0)
        return (0.0, far if y > 0 else -far, 0.0)
    return (0.0, 0.0, 0.0)


def _beside(middle: Vector, low: Vector, high: Vector) -> bool:
    """True where a part's middle is not well within the box in plan."""
    return any(not low[k] + 15.0 < middle[k] < high[k] - 15.0 for k in (0, 1))
