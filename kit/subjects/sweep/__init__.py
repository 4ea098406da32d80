"""Where a machine moves: how far a point of it reaches, and what poses between poses may hide."""
