"""Both ends of the return slip: what a student hands in as text."""
