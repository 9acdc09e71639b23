"""Where a placed module is connected."""

from boxfit.bay import Vector
from boxfit.layout import PlacedModule
from boxfit.module import FACES, Module


def terminal_face(module: Module) -> str:
    """The module's own face with its terminals: as its file tells, else that with most room, else its top.

    Common practice, no source: room is kept clear where something has to be connected.

    >>> from boxfit.module import FaceRoom, Voltage
    >>> volts = Voltage(33, 44, 50.4)
    >>> terminal_face(Module("m", "m", 9, 9, 9, 1, 1, 1, volts, ("height",), 0, room=FaceRoom(front=25.0)))
    'front'
    """
    if module.terminals:
        return module.terminals
    most = max((face for pair in FACES for face in pair), key=lambda face: float(getattr(module.room, face)))
    return most if getattr(module.room, most) > 0.0 else "top"


def terminals_at(module: Module, placed: PlacedModule) -> Vector:
    """The middle of the face with the terminals [mm], turned as the module is."""
    face, at = terminal_face(module), []
    for axis, looking in enumerate(placed.stance.faces):
        low, high = placed.low[axis], placed.high[axis]
        pair = next(pair for pair in FACES if looking in pair)
        at.append(high if face == looking else low if face in pair else (low + high) / 2.0)
    x, y, z = at
    return (x, y, z)
