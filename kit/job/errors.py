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

    `key` is the place in the file, `ours` and `theirs` are the two texts as TOML would show them; `words` say what
    happened and leave out what to call.
    """

    def __init__(self, name: str, key: str, ours: str, theirs: str) -> None:
        self.words = f"{name} was changed meanwhile: {key} is {theirs} in the file and {ours} here; nothing is written"
        super().__init__(
            f"{self.words}; save(force=True) writes yours and keeps all their other changes, reload() takes theirs "
            "and drops yours"
        )
        self.key = key
        self.ours = ours
        self.theirs = theirs


class JobGone(JobError):  # noqa: N818 - as above
    """The file is not in its folder any more; nothing is written. `words` say so and leave out what to call."""

    def __init__(self, name: str) -> None:
        self.words = f"{name} is gone from its folder; nothing is written"
        super().__init__(f"{self.words}; save(force=True) writes it anew")
