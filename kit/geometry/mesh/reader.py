"""Read a scan from the bytes of an OBJ, STL, PLY, GLB or 3MF file; a bad file gets one sentence, never a hang."""

from typing import Any, BinaryIO

import numpy as np

from kit.core.errors import KitError
from kit.geometry.mesh import stl
from kit.geometry.mesh.mesh import SMALL, WIDE, Scan, welded
from kit.geometry.mesh.parse import parsed, parsed_apart
from kit.geometry.mesh.sniff import (
    MOST_BYTES,
    MOST_FACES,
    MOST_VERTICES,
    check_counts,
    check_sizes,
    kind_of,
    unpacked,
)

__all__ = ["MOST_BYTES", "MOST_FACES", "MOST_VERTICES", "read"]

LONGEST = 120.0  # s, for the reading of one file
LARGE = 10_000_000  # bytes: a larger file is read in a process of its own, which can be stopped
LARGEST = 1e9  # a coordinate above it is a fault of the file, in any unit
FLAT = 1e-16  # of the longest side, squared: a face of less area has none


def read(stream: BinaryIO, name: str, *, seconds: float = LONGEST) -> Scan:
    """Return the scan in an open file; `name` is its file name, for the kind and for messages.

    At most MOST_BYTES bytes, MOST_VERTICES vertices and MOST_FACES faces are read; counts that a header claims
    are checked before anything is built from them, so that the time grows only with the bytes, about 1 to 2 s for
    each 10 MB (of the unpacked text of a 3MF file), and no longer than `seconds` for what takes longest, the
    reading of text. An OBJ file has no mark at its end: one that is cut off is
    seen only if a line is. Materials and textures are not looked at; a missing .mtl
    does not matter. 3MF states its unit and GLB is in meters: both come in millimeters; all others are as scanned.

    Raises:
        KitError: what is wrong with the file, and what to do.
    """
    data = stream.read(MOST_BYTES + 1)
    kind = kind_of(data, name)
    promised = check_sizes(data, name, kind)
    if kind == "stl" and not stl.is_text(data):
        vertices, faces, notes = stl.binary(data, name)
        return _checked(vertices, faces, name).noted(*notes)
    try:
        if unpacked(data, kind) > LARGE:
            vertices, faces, factor = parsed_apart(data, kind, seconds)
        else:
            vertices, faces, factor = parsed(data, kind)
    except TimeoutError as error:
        raise KitError(
            f"{name} took more than the {seconds:g} s allowed to read; thin the scan in the scanning app or "
            "export it as binary PLY."
        ) from error
    except Exception as error:
        raise KitError(f"{name} is a damaged {kind.upper()} file; copy or export it again.") from error
    check_counts(name, len(vertices), len(faces))
    if len(vertices) < promised[0] or 0 < len(faces) < promised[1]:
        raise KitError(
            f"{name} claims {promised[0]:,} vertices and {promised[1]:,} faces but holds {len(vertices):,} and "
            f"{len(faces):,}; copy or export it again."
        )
    return _checked(vertices * factor, faces, name)


def _checked(vertices: Any, faces: Any, name: str) -> Scan:
    if len(vertices) == 0:
        raise KitError(f"{name} holds no vertex; export the scan again.")
    if len(faces) == 0:
        raise KitError(
            f"{name} holds {len(vertices):,} points but no face; export it as a mesh with faces, not as a point cloud."
        )
    if faces.min() < 0 or faces.max() >= len(vertices):
        raise KitError(
            f"{name} has a face with vertex {faces.max() + 1:,} of {len(vertices):,}; copy or export it again."
        )
    good = (np.isfinite(vertices) & (np.abs(vertices) <= LARGEST)).all(axis=1)
    whole = good[faces].all(axis=1)
    notes: tuple[str, ...] = ()
    if not whole.all():
        bad = int((~good).sum())
        if 2 * int(whole.sum()) < len(faces):
            raise KitError(
                f"{name} has {bad:,} vertices of {len(vertices):,} that are no finite numbers, and most faces "
                "use them; export it again."
            )
        notes = (
            f"{bad:,} vertices of {name} are no finite numbers; they were left out with {int((~whole).sum()):,} faces.",
        )
    points, corners = welded(vertices, faces[whole])
    longest = float(np.ptp(points, axis=0).max())
    if longest == 0.0:
        raise KitError(f"All vertices of {name} lie at one place; export the scan again.")
    if not SMALL <= longest <= WIDE:
        raise KitError(
            f"The longest side of {name} is {longest:.3g}, in its own unit; from {SMALL:g} to {WIDE:,.0f} is read: "
            "export it in millimeters or meters."
        )
    a, b, c = np.moveaxis(points[corners], 1, 0)
    if not (np.linalg.norm(np.cross(b - a, c - a), axis=1) > FLAT * longest**2).any():
        raise KitError(
            f"No face of {name} has an area: the corners of each lie on a line or at one place; export the scan again."
        )
    return Scan(points, corners, notes)
