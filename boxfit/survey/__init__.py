"""From outlines, scans and solids to the surface of a bay or of what stays in it, healed and checked."""
