"""What holds boards together, and cloth on its frame."""
