"""Strings through the modules of all boxes, and the cables that join the boxes."""
