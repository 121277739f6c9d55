"""The graph method."""
