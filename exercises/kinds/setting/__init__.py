"""Setting up."""
