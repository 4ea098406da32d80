"""Surfaces laid flat: edge curves, right rulings, unrolling and flattening."""
