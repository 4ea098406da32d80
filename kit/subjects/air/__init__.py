"""Air on its way: how much a hood needs, what its path costs, and where a collector runs."""
