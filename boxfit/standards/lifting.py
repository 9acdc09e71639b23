"""What lifting asks: how much stronger than its load a lug is, how slings hang, what pins bear. [mm, N]"""

from math import cos, radians, tan

from boxfit.standards.load_factors import GRAVITY
from boxfit.standards.strengths import PARTIAL_YIELD

WORKING_COEFFICIENT = 4.0
"""A lug's design resistance is at least so many times its share of the load [-]: directive 2006/42/EC,
annex I 4.1.2.5, metal parts of lifting accessories against breaking, from memory; here also against
yielding."""
CARRYING = 2
"""Of four lugs so many are taken to carry all, as a stiff box on four slings hangs from two. Read in a
builders' training manual, on slings of three and four legs."""
MOST_SLOPE = 15.0
"""Slings hang no further off upright [degrees], from a spreader beam, whichever way: common practice, no
source. Lugs are reckoned with that, also where their box leaves slings less."""
HOLE, PIN = 14.0, 12.0
"""Hole of a lug and the shackle's pin in it [mm]: common practice, no source."""
BOW = 16.0
"""How wide the shackle's bow is where it passes a flange [mm]: common practice, no source."""


def upright_share(mass: float) -> float:
    """What one lug of a box of `mass` [kg] is reckoned with, upright [N]: m g / 2 times the coefficient.

    >>> upright_share(50.0)
    981.0
    """
    return mass * GRAVITY * WORKING_COEFFICIENT / CARRYING


def along_sling(upright: float) -> float:
    """The force in the sling [N] whose upright part is given.

    >>> round(along_sling(1000.0))
    1035
    """
    return upright / cos(radians(MOST_SLOPE))


def across_sling(upright: float) -> float:
    """The level part of that force [N].

    >>> round(across_sling(1000.0))
    268
    """
    return upright * tan(radians(MOST_SLOPE))


def pin_bearing(pin: float, thickness: float, yielding: float) -> float:
    """What a plate bears at a pin [N]: Fb,Rd = 1.5 t d fy / gamma M0.

    `yielding` [MPa] is the plate's. Source: EN 1993-1-8 table 3.10, read on a public copy; the partial factor
    is that of aluminium, on the safe side for steel.

    >>> round(pin_bearing(12.0, 6.0, 235.0))
    23073
    """
    return 1.5 * thickness * pin * yielding / PARTIAL_YIELD


def pin_torn_out(ahead: float, beside: float, hole: float, yield_of: tuple[float, float]) -> float:
    """What the metal round a pin's hole bears [N], `ahead` of it and `beside` it [mm], counted from its edge.

    `yield_of` is thickness [mm] and yield strength [MPa]. Least F of a >= F g / (2 t fy) + 2 d0 / 3 and
    c >= F g / (2 t fy) + d0 / 3, nothing where a plate of any thickness would be too narrow. Source: EN
    1993-1-8 table 3.9 type A, read on two public copies.

    >>> round(pin_torn_out(16.0, 12.0, 12.0, (6.0, 235.0)))
    20509
    >>> pin_torn_out(6.0, 12.0, 12.0, (6.0, 235.0))
    0.0
    """
    thickness, yielding = yield_of
    left = min(ahead - 2.0 * hole / 3.0, beside - hole / 3.0)
    return max(0.0, left) * 2.0 * thickness * yielding / PARTIAL_YIELD
