"""Comparing two magnets."""
