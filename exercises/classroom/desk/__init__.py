"""What the class desk may ask of Python."""
