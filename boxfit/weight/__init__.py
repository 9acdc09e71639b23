"""Masses, axle loads and balance."""
