"""Find the fault."""
