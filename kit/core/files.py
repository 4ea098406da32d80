"""Files: only regular ones are read, none too large; written so that, stopped at any moment, old or new is whole."""

import errno
import os
import stat
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from contextvars import ContextVar
from functools import lru_cache
from hashlib import sha256
from pathlib import Path

from kit.core.errors import KitError

MOST_BYTES = 400_000_000  # of a file that a job names
LEFT_OVER = 86_400.0  # s: where there are no locks, what is half-written for longer belongs to nobody any more
YOUNG = 5.0  # s: what is half-written and younger may not be held yet by whoever writes it
SETTLED = 2.0  # s: a file changed later than that ago may change again without its times telling

_ANNOUNCED: ContextVar[Callable[[str], None] | None] = ContextVar("announced", default=None)


@contextmanager
def announcing(told: Callable[[str], None]) -> Iterator[None]:
    """Have `told` called with the name of each file that is written meanwhile, before it is; it may raise to stop."""
    token = _ANNOUNCED.set(told)
    try:
        yield
    finally:
        _ANNOUNCED.reset(token)


def read_regular(path: Path, most: int) -> bytes:
    """Return the bytes of a file; looks at what it is, and at its size, before it reads.

    Never waits: a pipe is refused, not opened until someone writes into it.

    Raises:
        KitError: a folder, a pipe, a device, more than `most` bytes, or a file that cannot be read.
    """
    try:
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    except IsADirectoryError:
        raise KitError(f"{path.name} is a folder; name a file in it") from None
    except (OSError, ValueError) as error:
        raise KitError(f"{path.name} cannot be read: {reason(error)}") from error
    try:
        check_regular(path, os.fstat(handle), most)  # first: a folder opens too on some systems, and is then no stream
        with os.fdopen(handle, "rb", closefd=False) as stream:
            return stream.read(most + 1)
    finally:
        os.close(handle)


def located(folder: Path, name: str) -> Path | None:
    """Return the path that a name leads to from the job's folder or, where nothing is there, from the demo's files.

    It may lie outside of both, and be no file. None where nothing is there, or the name can be none.
    """
    from kit.core.resources import data_dir

    for path in (folder / name, data_dir() / name):
        try:
            path.stat()
        except (OSError, ValueError):
            continue
        return path
    return None


def beside(folder: Path, name: str) -> Path:
    """Return the path of a file beside the job, or of one that came with the demo.

    Raises:
        KitError: there is neither, or what is there is a folder, a pipe or a device, or larger than anything read.
    """
    path = located(folder, name) if name else None
    if path is None:
        raise KitError(f"there is no file {name!r} beside the job in {str(folder)!r}; put it there")
    check_regular(path, path.stat(), MOST_BYTES)
    return path


def check_regular(path: Path, found: os.stat_result, most: int) -> None:
    """Refuse what is no regular file, or too large, by what the system tells of it.

    Raises:
        KitError: a folder, a pipe, a device, or more than `most` bytes.
    """
    mode = found.st_mode
    if not stat.S_ISREG(mode):
        kind = "a folder" if stat.S_ISDIR(mode) else "a pipe" if stat.S_ISFIFO(mode) else "a device or a socket"
        raise KitError(f"{path.name} is {kind}, not a file; name a file")
    if found.st_size > most:
        raise KitError(f"{path.name} has {found.st_size / 1e6:,.0f} MB; at most {most / 1e6:,.0f} MB are read")


def reason(error: OSError | ValueError) -> str:
    """Return what the system says of a failure, without its number and the path."""
    return (getattr(error, "strerror", None) or str(error)).lower()


def content_digest(path: Path, most: int) -> str:
    """Return 64 hexadecimal digits that change with a file's content, wherever it lies or a link to it leads.

    What is no regular file of at most `most` bytes is not read: its digits change with what the system tells of it.
    """
    try:
        found = path.stat()
    except (OSError, ValueError) as error:
        return sha256(reason(error).encode()).hexdigest()
    state = (found.st_mode, found.st_dev, found.st_ino, found.st_size, found.st_mtime_ns, found.st_ctime_ns)
    if not stat.S_ISREG(found.st_mode) or found.st_size > most:
        return sha256(repr(state).encode()).hexdigest()
    if time.time() - max(found.st_mtime, found.st_ctime) < SETTLED:
        return sha256(read_regular(path, most)).hexdigest()
    return _digest(path, most, state)


@lru_cache(maxsize=64)
def _digest(path: Path, most: int, _told: tuple[int, ...]) -> str:
    return sha256(read_regular(path, most)).hexdigest()


def write_atomic(path: Path, content: str | bytes) -> None:
    """Replace the file at `path` by `content` in one step.

    Text is written as UTF-8 with the line ends it has. The bytes reach the disk before the name does; permissions,
    owner, group and extended attributes of a file that is replaced are kept. What a process that was killed left
    half-written is taken away the next time.

    Raises:
        OSError: the file is read-only, a pipe or a device, or the folder cannot be written, or is full; it names the
            file. The old file is then untouched.
    """
    told = _ANNOUNCED.get()
    if told is not None:
        told(path.name)
    try:
        _replace(path.resolve(), content)  # a link stays a link: its target is what is replaced
    except OSError as error:
        raise OSError(error.errno, error.strerror, str(path)) from error


def _replace(path: Path, content: str | bytes) -> None:
    old = path.stat() if path.exists() else None
    if old is not None and not (stat.S_ISREG(old.st_mode) or stat.S_ISDIR(old.st_mode)):
        raise OSError(errno.EINVAL, "a pipe or a device, not a file")  # it would be replaced by one
    if old is not None and not old.st_mode & 0o222:  # the folder's permissions alone would let it be replaced
        raise PermissionError(errno.EACCES, "the file is read-only")
    _clear_half_written(path)
    data = content.encode("utf-8") if isinstance(content, str) else content
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".part", dir=path.parent)
    part = Path(name)
    try:
        with os.fdopen(os.dup(handle), "wb") as stream:
            hold(handle)
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        part.chmod(old.st_mode & 0o777 if old else 0o666 & ~_umask())
        if old:
            _keep_owner(path, part, old)
        if os.name == "nt":  # an open file has no other name there
            os.close(handle)
            handle = -1
        part.replace(path)
    except BaseException:
        part.unlink(missing_ok=True)
        raise
    finally:
        if handle >= 0:
            os.close(handle)


def _keep_owner(path: Path, part: Path, old: os.stat_result) -> None:
    """Give a file that is to replace another its owner, group and extended attributes, as far as the system lets us."""
    if hasattr(os, "chown"):
        for owner, group in ((old.st_uid, -1), (-1, old.st_gid)):  # only root may give a file away; a group of ours is
            with suppress(OSError):
                os.chown(part, owner, group)
    if hasattr(os, "listxattr"):
        with suppress(OSError):  # some disks have none
            for name in os.listxattr(path):
                with suppress(OSError):
                    os.setxattr(part, name, os.getxattr(path, name))


def hold(handle: int) -> None:
    """Hold an open file or folder until it is closed or the process ends, so that others do not clear it away."""
    with suppress(ImportError, OSError):  # not every system and disk knows locks
        import fcntl

        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)


def forsaken(path: Path) -> bool:
    """Whether what lies half-written at `path` belongs to nobody any more: who wrote it has ended without a word.

    Raises:
        OSError: it cannot be looked at.
    """
    age = time.time() - path.stat().st_mtime
    if age < YOUNG or age > LEFT_OVER:
        return age > LEFT_OVER
    try:
        import fcntl
    except ImportError:
        return False
    handle = os.open(path, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:  # held, or no locks here
        return False
    finally:
        os.close(handle)
    return True


def _clear_half_written(path: Path) -> None:
    lying: list[Path] = []
    with suppress(OSError), os.scandir(path.parent) as found:
        lying = [Path(each) for each in found if each.name.startswith(f".{path.name}.") and each.name.endswith(".part")]
    for left in lying:
        with suppress(OSError):
            if forsaken(left):
                left.unlink()


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
