"""From parts to STEP, STL, glTF and mass properties."""
