"""A class list becomes a class, its codes, and the files that are given out."""
