"""Values as a person would write them in a file, short enough for one line of a message."""

_LONGEST = 60
_DEEPEST = 3


def shown(value: object) -> str:
    """The value as it would stand in a file; numbers without a needless point, long ones cut.

    >>> shown(700.0), shown(True), shown("up"), shown([1.5, 2]), shown({"front": 1180.0})
    ('700', 'true', '"up"', '[1.5, 2]', '{ front = 1180 }')
    """
    text = _text(value, _DEEPEST)
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 3]}..."


def plain(text: str) -> str:
    r"""The text with everything that does not print (line ends, escapes) written out.

    >>> plain("a\nb")
    'a\\nb'
    """
    return "".join(sign if sign.isprintable() else sign.encode("unicode_escape").decode() for sign in text)


def _text(value: object, depth: int) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float):
        return f"{value:.10g}"
    if isinstance(value, str):
        return f'"{plain(value[:_LONGEST])}"'
    if isinstance(value, list | dict):
        return _collection(value, depth - 1)
    return str(value)


def _collection(value: list[object] | dict[str, object], depth: int) -> str:
    if depth < 0:
        return "..."
    if isinstance(value, list):
        return f"[{', '.join(_text(each, depth) for each in value[:_LONGEST])}]"
    pairs = [f"{plain(key)} = {_text(each, depth)}" for key, each in value.items()]
    return f"{{ {', '.join(pairs)} }}" if pairs else "{}"
