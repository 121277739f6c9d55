"""What the kinds that find a moment by deflection share: parts, steps, scenario, draw and page."""
