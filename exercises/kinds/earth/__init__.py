"""The earth's field and the moment, by vibration and deflection."""
