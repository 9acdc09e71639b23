"""Figures out of a file as it stands, before anything of it is believed."""

Raw = dict[str, object]
_BEYOND_BELIEF = 1e9


def table(raw: Raw, name: str) -> Raw:
    """The table of that name, empty where there is none."""
    found = raw.get(name)
    return found if isinstance(found, dict) else {}


def figure(value: object) -> float | None:
    """The value as a number that can be reckoned with; true and false are none.

    >>> figure(2), figure(True), figure("2"), figure(float("nan"))
    (2.0, None, None, None)
    """
    if isinstance(value, bool) or not isinstance(value, int | float) or not abs(value) < _BEYOND_BELIEF:
        return None
    return float(value)


def figures_sum(among: Raw, keys: tuple[str, ...]) -> float | None:
    """The figures added up, None where one of them is not a figure above zero.

    >>> figures_sum({"a": 1.5, "b": 2}, ("a", "b")), figures_sum({"a": 1.5}, ("a", "b"))
    (3.5, None)
    """
    figures = [figure(among.get(key)) for key in keys]
    sound = [each for each in figures if each is not None and each > 0.0]
    return sum(sound) if len(sound) == len(keys) else None
