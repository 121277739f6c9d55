"""The text of files: bytes become text, and tables become CSV and back."""
