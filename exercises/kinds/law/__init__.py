"""Tangent law drills."""
