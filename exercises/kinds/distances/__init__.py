"""Choosing distances."""
