"""Hypothesis draws the same examples everywhere and is not timed: a run gives the same answer each time."""

import signal

from hypothesis import settings

settings.register_profile("same everywhere", deadline=None, derandomize=True)
settings.load_profile("same everywhere")

signal.signal(signal.SIGINT, signal.default_int_handler)  # shells leave it ignored in the background
