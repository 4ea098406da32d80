"""What every file says beside its content, such as the limit that its part fails.

Whoever has files written states the remarks around the writing, and the writers of all formats ask here: a subject
cannot forget to pass them on.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

_REMARKS: ContextVar[tuple[str, ...]] = ContextVar("remarks", default=())


@contextmanager
def remarking(remarks: tuple[str, ...]) -> Iterator[None]:
    """Let every file that is written meanwhile carry these remarks."""
    token = _REMARKS.set(remarks)
    try:
        yield
    finally:
        _REMARKS.reset(token)


def remarks() -> tuple[str, ...]:
    """Return the remarks that a file written now is to carry."""
    return _REMARKS.get()
