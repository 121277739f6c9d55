"""Reading the dial."""
