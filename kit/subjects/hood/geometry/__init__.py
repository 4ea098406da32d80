"""A hood of leaning boards: faces, boards as true solids, bevels, openings, rails, cutting order, proposal."""
