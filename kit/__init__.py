"""Fitwright: design notebooks for stations and fixtures around a workshop machine.

    from kit.job import open_job
    from kit.ui.panel import panel

    job = open_job("boatshed.toml")
    panel(job=job, part="long_stop")

Each part of the kit is imported by its own name, so that nothing heavy is loaded until it is used.
"""

__version__ = "0.1.0"
