"""What the student's pages may ask of Python."""
