"""From a survey to free room: where a block can stand, and whether it gets in."""
