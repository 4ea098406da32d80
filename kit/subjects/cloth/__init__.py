"""Cloth cut flat: cones, miters, relief of curved hems, twist, and the drop chute."""
