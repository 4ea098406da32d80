"""The command, for where `fitwright` is not on the path: `python -m kit list`."""

from kit.cli import command

if __name__ == "__main__":
    raise SystemExit(command())
