"""Tan B: moment and pole strength, broadside-on."""
