"""The colours of the parts in the assembly: our own. Orange is left to high-voltage cable, so none has it."""

Colour = tuple[float, float, float, float]
"""Red, green, blue in linear light and opacity, 0 to 1."""

COLOURS: dict[str, Colour] = {
    "tray": (0.45, 0.49, 0.54, 1.0),
    "lid": (0.27, 0.34, 0.45, 0.45),
    "cover plate": (0.04, 0.05, 0.06, 0.45),
    "shelf": (0.32, 0.39, 0.34, 1.0),
    "liner": (0.85, 0.85, 0.80, 1.0),
    "module": (0.02, 0.13, 0.11, 1.0),
    "module room": (0.17, 0.38, 0.79, 0.25),
}
"""Lid and cover plate let the modules be seen; the room a module keeps clear is no body and looks so."""
