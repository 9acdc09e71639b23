"""From a layout to the parts of a box."""
