"""Hypothesis draws the same examples everywhere and is not timed: a run gives the same answer each time."""

from hypothesis import settings

settings.register_profile("same everywhere", deadline=None, derandomize=True)
settings.load_profile("same everywhere")
