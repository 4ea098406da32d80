"""Writing files so that, stopped at any moment, either the old or the new file is whole."""

import os
import tempfile
from pathlib import Path


def write_atomic(path: Path, content: str | bytes) -> None:
    """Replace the file at `path` by `content` in one step.

    Text is written as UTF-8 with the line ends it has. The bytes reach the disk before the name does, and the
    permissions of a file that is replaced are kept.

    Raises:
        OSError: the folder cannot be written; the old file is then untouched.
    """
    path = path.resolve()  # a link stays a link: its target is what is replaced
    data = content.encode("utf-8") if isinstance(content, str) else content
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".part", dir=path.parent)
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        part.chmod(path.stat().st_mode & 0o777 if path.exists() else 0o666 & ~_umask())
        part.replace(path)
    except BaseException:
        part.unlink(missing_ok=True)
        raise


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
