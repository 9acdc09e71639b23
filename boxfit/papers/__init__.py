"""One set of papers for an inspector: what the sums, lists and drawings say, page by page."""
