"""TOML in, results out, messages about bad input."""
