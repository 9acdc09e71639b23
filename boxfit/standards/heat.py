"""What modules grow and heat up by, and how little a closed box lets out: figures from memory. [mm, W, K]"""

SWELLING = 0.06
"""Growth of a stack of pouch cells along the stack [-]: common practice, no source."""
LINER_CONDUCTS = 0.45
"""Conductivity of sheet polyethylene (HDPE) [W/(m K)]: 0.4 to 0.5, from memory."""
STILL_AIR = 6.0
"""What a closed box gives off to still air by convection and radiation [W/(m2 K)]: 5 to 8, from memory."""
LOST_AT_ONE_C = 0.03
"""Share of its power that a module turns into heat when emptied within an hour [-]; it grows in proportion to
the current. From memory; the module's maker knows."""
ASK_ABOVE, COOL_ABOVE = 0.5, 1.0
"""Continuous current over capacity [1/h] above which cooling is asked for, and needed: common practice, no
source."""
WARMER = 20.0
"""How much warmer than the air round it [K] a box may be taken to become: common practice, no source."""


def resistance(thickness: float) -> float:
    """Thermal resistance of a liner [mm] on a square metre [m2 K/W]: R = t / k.

    >>> round(resistance(3.0), 4)
    0.0067
    """
    return thickness / 1000.0 / LINER_CONDUCTS


def given_off(area: float, thickness: float) -> float:
    """Heat [W] that a lined closed box of an outside [m2] gives off while it is WARMER than still air.

    The liner [mm] and the air outside one behind the other: q = A T / (t/k + 1/h) (textbook).

    >>> round(given_off(1.0, 3.0)), round(given_off(1.0, 0.0))
    (115, 120)
    """
    return area * WARMER / (resistance(thickness) + 1.0 / STILL_AIR)


def heated(volts: float, amperes: float, capacity: float) -> float:
    """Heat of a module [W] that gives so many amperes all the time; capacity [Ah].

    >>> round(heated(44.0, 100.0, 50.0))
    264
    """
    return LOST_AT_ONE_C * (amperes / capacity) * volts * amperes
