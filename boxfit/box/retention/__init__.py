"""Built boxes as plain figures for the sums of retention, and those sums of all boxes together."""
