"""How sure the moment is."""
