"""Folds in sheet and cloth."""
