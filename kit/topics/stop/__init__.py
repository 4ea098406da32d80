"""Long stops and ribs."""
