"""Pictures and words about a result."""
