"""A sheet code becomes a scenario: the numbers that one student gets."""
