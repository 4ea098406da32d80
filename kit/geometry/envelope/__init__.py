"""The room that a moving body sweeps, as cells that never miss any of it, and as a surface."""
