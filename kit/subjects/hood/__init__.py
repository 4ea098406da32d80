"""The hood over the machine: its shape, and the air through it."""
