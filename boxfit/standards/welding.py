"""How edges are prepared before they are welded, in words. From memory, and for the welder to agree to."""

SQUARE_UP_TO = {"aluminium": 4.0, "steel": 3.0, "stainless": 3.0}
"""Sheet [mm] that is welded from square edges: about the thinnest rows of ISO 9692-1 and ISO 9692-3, from
memory."""


def weld_preparation(material: str, thickness: float) -> str:
    """What is done to the edges of a sheet [mm] before a butt or corner weld.

    Sources: ISO 9692-1 for steel, ISO 9692-3 for aluminium, both from memory; plastics: common practice, no
    source.

    >>> weld_preparation("aluminium-5754", 2.5)
    'square edges, no bevel (ISO 9692-3, from memory)'
    >>> weld_preparation("steel-s235", 4.0)
    'bevel one edge 45 degrees, root face 1 to 2 mm (ISO 9692-1, from memory)'
    """
    kind = material.split("-", maxsplit=1)[0]
    if kind not in SQUARE_UP_TO:
        return "bevel both edges 30 degrees for the filler rod (common practice, no source)"
    source = "ISO 9692-3, from memory" if kind == "aluminium" else "ISO 9692-1, from memory"
    if thickness <= SQUARE_UP_TO[kind]:
        return f"square edges, no bevel ({source})"
    return f"bevel one edge 45 degrees, root face 1 to 2 mm ({source})"
