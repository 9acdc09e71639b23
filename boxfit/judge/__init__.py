"""The independent check of a finished layout and box, rebuilt from the files."""
