"""What goes wrong with a job file."""

from __future__ import annotations

from kit.core.errors import KitError


class JobError(KitError):
    """A job file that cannot be read or written, or a part of it that cannot be computed.

    `line` and `column` count from 1; None where the whole file is meant.
    """

    def __init__(self, message: str, line: int | None = None, column: int | None = None) -> None:
        super().__init__(message)
        self.line = line
        self.column = column


class JobChanged(JobError):  # noqa: N818 - it says what happened; the session asks what to do
    """The file was changed by hand where this session changed it too; nothing is written.

    `key` is the place in the file, `ours` and `theirs` are the two texts as TOML would show them.
    """

    def __init__(self, name: str, key: str, ours: str, theirs: str) -> None:
        super().__init__(
            f"{name} was changed meanwhile: {key} is {theirs} in the file and {ours} here; nothing is written; "
            "save(force=True) writes yours and keeps all their other changes, reload() takes theirs and drops yours"
        )
        self.key = key
        self.ours = ours
        self.theirs = theirs
