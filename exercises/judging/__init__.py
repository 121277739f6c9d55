"""What was typed becomes a verdict."""
