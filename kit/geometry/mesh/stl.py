"""Binary STL, whose header may say anything: told from text by its bytes, its count held against its length."""

import re

import numpy as np

from kit.core.errors import KitError
from kit.geometry.mesh.mesh import Array, Index

HEAD = 84  # bytes: 80 of free text and the count
ROW = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])  # 50 bytes


def is_text(data: bytes) -> bool:
    """Return whether an STL file is text: it begins as such, and holds no byte that text has not.

    The free text of a binary file may begin with "solid" and name a "facet" as well.
    """
    head = data[:4096]
    if head.lstrip()[:5].lower() != b"solid" or not re.search(rb"facet|endsolid", head, re.IGNORECASE):
        return False
    return b"\0" not in head and len(data) != HEAD + ROW.itemsize * claimed(data)


def claimed(data: bytes) -> int:
    """Return how many triangles a binary file says that it holds."""
    return int.from_bytes(data[80:84], "little")


def binary(data: bytes, name: str) -> tuple[Array, Index, tuple[str, ...]]:
    """Return vertices (n, 3) and faces (m, 3) of a binary file, and a note where its count is not what it holds.

    Raises:
        KitError: it counts more than it holds, or none where what it holds is not so many whole triangles.
    """
    count, (held, left) = claimed(data), divmod(max(0, len(data) - HEAD), ROW.itemsize)
    if count > held or len(data) < HEAD:
        raise KitError(f"{name} claims {count:,} triangles but holds {held:,}; copy or export it again.")
    notes: tuple[str, ...] = ()
    if count < held and left == 0:
        notes = (f"{name} counts {count:,} triangles but holds {held:,}; all {held:,} were read.",)
        count = held
    elif count == 0 and held:
        raise KitError(
            f"{name} counts 0 triangles but holds {len(data) - HEAD:,} bytes, no whole number of them; export it again."
        )
    elif len(data) > HEAD + count * ROW.itemsize:
        rest = len(data) - HEAD - count * ROW.itemsize
        notes = (f"{name} holds {rest:,} bytes after the {count:,} triangles that it counts; they were left out.",)
    rows = np.frombuffer(data, dtype=ROW, count=count, offset=HEAD)
    vertices = np.asarray(rows["corners"], dtype=float).reshape(-1, 3)
    return vertices, np.arange(3 * count, dtype=np.int64).reshape(-1, 3), notes
