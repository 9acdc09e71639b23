"""Plain exact models given to a general solver as they stand; they know nothing of the search."""
