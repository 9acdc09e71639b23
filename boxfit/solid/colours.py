"""The colours of the parts in the assembly: our own. Orange is that of high-voltage cable alone."""

Colour = tuple[float, float, float, float]
"""Red, green, blue in linear light and opacity, 0 to 1."""

COLOURS: dict[str, Colour] = {
    "tray": (0.45, 0.49, 0.54, 1.0),
    "lid": (0.27, 0.34, 0.45, 0.45),
    "gasket": (0.02, 0.02, 0.02, 1.0),
    "cover plate": (0.04, 0.05, 0.06, 0.45),
    "shelf": (0.32, 0.39, 0.34, 1.0),
    "liner": (0.85, 0.85, 0.80, 1.0),
    "hold-down": (0.55, 0.57, 0.20, 1.0),
    "hold-down bracket": (0.30, 0.33, 0.12, 1.0),
    "foot": (0.25, 0.30, 0.36, 1.0),
    "spreading plate": (0.36, 0.41, 0.46, 1.0),
    "stiffening bar": (0.31, 0.35, 0.41, 1.0),
    "doubler": (0.39, 0.43, 0.48, 1.0),
    "disconnect cover": (0.60, 0.62, 0.64, 1.0),
    "lifting lug": (0.48, 0.44, 0.36, 1.0),
    "cable housing": (0.42, 0.46, 0.51, 1.0),
    "housing cover": (0.50, 0.53, 0.57, 1.0),
    "housing block": (0.30, 0.33, 0.12, 1.0),
    "bought part": (0.10, 0.12, 0.30, 1.0),
    "link cable": (1.0, 0.22, 0.0, 1.0),
    "module": (0.02, 0.13, 0.11, 1.0),
    "module room": (0.17, 0.38, 0.79, 0.25),
}
"""Lid and cover plate let the modules be seen; the room a module keeps clear is no body and looks so."""
