"""Quick cars and modules for sweeps: one bay, a few modules, no search longer than a moment. All invented."""

from dataclasses import replace

from boxfit.bay import Bay, BoxRules, Opening, Prism
from boxfit.car import Car, Window
from boxfit.module import Module, Voltage

RULES = BoxRules("aluminium-5754", "folded", "rectangular", 2.5, 2.5, 22.0, 2.0, 10.0, 3.0, 4.0, 5.0, 1, 1)
SMALL = Module(
    "Siskin 24", "siskin-24", 180.0, 120.0, 90.0, 4.0, 0.6, 25.0, Voltage(18.0, 24.0, 28.0), ("height",), 2.0
)
LONG = replace(SMALL, name="Siskin 36", stem="siskin-36", length=270.0, mass=6.0, energy=0.9)
TALL = replace(SMALL, name="Godwit 24", stem="godwit-24", height=400.0)
"""Fits no bay here."""
MODULES = (SMALL, LONG, TALL)


def quick_car(width: float = 500.0) -> Car:
    """One bay of a plain shape [mm]."""
    outline = ((-900.0, -width / 2), (-300.0, -width / 2), (-300.0, width / 2), (-900.0, width / 2))
    bay = Bay("boot", Prism(outline, 300.0, 480.0), 3.0, 13.0, RULES, opening=Opening("up"))
    windows = (Window("inverter", 30.0, 120.0),)
    return Car("Dotterel", "dotterel", 2000.0, 1200.0, 1200.0, (bay,), windows=windows)


CARS = (quick_car(), quick_car(640.0))
