"""Flats: every part of a box as it is cut from sheet, before folding."""
