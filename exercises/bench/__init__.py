"""Magnets, fields, the instrument with its faults, and the fits that are made to its readings."""
