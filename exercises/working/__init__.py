"""A solution as steps over replaceable parts, the arithmetics it runs with, and how quantities are written."""
