"""Strings and voltage windows."""
