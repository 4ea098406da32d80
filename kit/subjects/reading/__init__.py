"""Stop readings: the reversible block, its errors, and repeated cuts."""
