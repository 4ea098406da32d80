"""Files for printing a solid: STL, which has no unit (everyone reads millimeters), and 3MF, which states it."""

import re
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING
from uuid import NAMESPACE_OID, uuid5
from xml.sax.saxutils import escape
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from kit.core.errors import KitError
from kit.core.files import write_atomic
from kit.drawing.remarks import remarks

if TYPE_CHECKING:
    import trimesh

KINDS = (".stl", ".3mf")
HEAD = 80  # bytes before the number of faces of a binary STL
_UUID = re.compile(rb"\b[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}\b")


def write_solid(solid: "trimesh.Trimesh", path: Path) -> None:
    """Write a closed solid in millimeters as binary STL or as 3MF, by the path's ending; the same gives the same bytes.

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
    write_atomic(path, remarked_stl(content) if kind == ".stl" else _settled_3mf(content))


def remarked_stl(content: bytes) -> bytes:
    """Return a binary STL with the remarks in its head, as far as its 80 bytes of ASCII reach."""
    if not remarks():
        return content
    return " ".join(remarks()).encode("ascii", "replace")[:HEAD].ljust(HEAD) + content[HEAD:]


def _settled_3mf(archive: bytes) -> bytes:
    """Return a 3MF with the remarks, whose random identifiers and times give way to such as follow from what it holds.

    The remarks are the metadata Description of its model. Source: 3MF Core Specification 1.2, 3.4.1 (metadata stand in
    the model, before its resources).
    """
    packed = BytesIO()
    with ZipFile(BytesIO(archive)) as source, ZipFile(packed, "w", ZIP_DEFLATED) as target:
        for name in sorted(source.namelist()):
            text = source.read(name)
            if remarks() and name.endswith(".model"):
                told = f'<metadata name="Description">{escape(" ".join(remarks()))}</metadata>'.encode()
                begin = text.index(b"<resources")
                text = text[:begin] + told + text[begin:]
            bare = _UUID.sub(b"", text)
            for number, drawn in enumerate(dict.fromkeys(_UUID.findall(text))):
                text = text.replace(drawn, str(uuid5(NAMESPACE_OID, f"{sha256(bare).hexdigest()} {number}")).encode())
            target.writestr(ZipInfo(name), text, ZIP_DEFLATED)
    return packed.getvalue()
