"""Surfaces laid flat: edge curves, right rulings, unrolling, flattening, and what makes a piece of cloth of it."""
