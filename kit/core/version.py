"""The version of the kit, as sheets and records name it."""

__version__ = "0.1.0"
