"""Counting, tiers, bays together, bounds and proofs."""
