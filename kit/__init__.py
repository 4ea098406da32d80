"""Fitwright: design notebooks for stations and fixtures around a workshop machine."""

__version__ = "0.1.0"
