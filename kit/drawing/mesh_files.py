"""Files for printing a solid: STL, which has no unit (everyone reads millimeters), and 3MF, which states it."""

import io
import zipfile
from pathlib import Path
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

from kit.core.errors import KitError
from kit.core.files import write_atomic
from kit.drawing.remarks import remarks

if TYPE_CHECKING:
    import trimesh

KINDS = (".stl", ".3mf")
HEAD = 80  # bytes before the number of faces of a binary STL


def write_solid(solid: "trimesh.Trimesh", path: Path) -> None:
    """Write a closed solid in millimeters as binary STL or as 3MF, by the path's ending.

    Raises:
        KitError: another ending, or a solid that is not closed or not one with an inside.
        OSError: the folder cannot be written; an old file is then untouched.
    """
    kind = path.suffix.lower()
    if kind not in KINDS:
        raise KitError(f"{path.name!r} is not a solid's file; end its name in {' or '.join(KINDS)}")
    if not solid.is_watertight or solid.volume <= 0:
        raise KitError(f"the solid for {path.name!r} is not closed; a printer cannot tell its inside")
    named = solid.copy()
    named.units = "mm"
    content = named.export(file_type=kind[1:])
    assert isinstance(content, bytes)  # both kinds are binary files
    write_atomic(path, remarked_stl(content) if kind == ".stl" else _remarked_3mf(content))


def remarked_stl(content: bytes) -> bytes:
    """Return a binary STL with the remarks in its head, as far as its 80 bytes of ASCII reach."""
    if not remarks():
        return content
    return " ".join(remarks()).encode("ascii", "replace")[:HEAD].ljust(HEAD) + content[HEAD:]


def _remarked_3mf(content: bytes) -> bytes:
    """Return a 3MF with the remarks as the metadata Description of its model.

    Source: 3MF Core Specification 1.2, 3.4.1 (metadata stand in the model, before its resources).
    """
    if not remarks():
        return content
    written = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(written, "w", zipfile.ZIP_DEFLATED) as new:
        for item in old.infolist():
            inside = old.read(item)
            if item.filename.endswith(".model"):
                told = f'<metadata name="Description">{escape(" ".join(remarks()))}</metadata>'.encode()
                begin = inside.index(b"<resources")
                inside = inside[:begin] + told + inside[begin:]
            new.writestr(item, inside)
    return written.getvalue()
