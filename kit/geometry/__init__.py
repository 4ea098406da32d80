"""Geometry on plain arrays; it knows no trade, no symbol, no screen and no file of a job."""
