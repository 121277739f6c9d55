"""What the kinds that find a moment by deflection share: steps, draw and page."""
