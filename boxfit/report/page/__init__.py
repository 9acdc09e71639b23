"""One self-contained page per layout and per comparison: opens without a network in any modern browser."""
