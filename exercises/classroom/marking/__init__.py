"""Return slips become marks."""
