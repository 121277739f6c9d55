"""What Python writes into pages: fragments that a page asks for by name."""
