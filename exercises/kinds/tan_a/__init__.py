"""Tan A: moment and pole strength, end-on."""
