"""Files for printing a solid: STL, which has no unit (everyone reads millimeters), and 3MF, which states it.

Sources: 3D Systems, StereoLithography Interface Specification (1989); 3MF Core Specification 1.2.
"""

from io import BytesIO
from pathlib import Path
from xml.sax.saxutils import escape
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

import numpy as np

from kit.core.errors import KitError
from kit.core.files import write_atomic
from kit.drawing.remarks import remarks
from kit.geometry.mesh.stl import ROW
from kit.geometry.solids.closed import Meshed, closed, volume

KINDS = (".stl", ".3mf")
HEAD = 80  # bytes before the number of faces of a binary STL
_FLAT = 100 * np.finfo(float).eps  # [mm²] a face of less has no normal
_DECLARED = '<?xml version="1.0" encoding="UTF-8"?>\n'
_CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_PARTS = {  # beside the model, Source: 3MF Core Specification 1.2, 2.1 and Appendix C
    "[Content_Types].xml": (
        f'{_DECLARED}<Types xmlns="{_PACKAGE}/content-types">'
        '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        '<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>'
    ),
    "_rels/.rels": (
        f'{_DECLARED}<Relationships xmlns="{_PACKAGE}/relationships"><Relationship Id="model" '
        'Target="/3D/3dmodel.model" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>'
    ),
}


def write_solid(solid: Meshed, path: Path) -> None:
    """Write a closed solid in millimeters as binary STL or as 3MF, by the path's ending; the same gives the same bytes.

    Raises:
        KitError: another ending, or a solid that is not closed or not one with an inside.
        OSError: the folder cannot be written; an old file is then untouched.
    """
    kind = path.suffix.lower()
    if kind not in KINDS:
        raise KitError(f"{path.name!r} is not a solid's file; end its name in {' or '.join(KINDS)}")
    if not closed(solid) or volume(solid) <= 0:
        raise KitError(f"the solid for {path.name!r} is not closed; a printer cannot tell its inside")
    write_atomic(path, stl(solid) if kind == ".stl" else _3mf(solid))


def stl(solid: Meshed) -> bytes:
    """Return triangles as a binary STL, the remarks in its head as far as its 80 bytes of ASCII reach."""
    corners = np.asarray(solid.vertices, dtype=float)[np.asarray(solid.faces)]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 1])
    lengths = np.sqrt((normals * normals) @ np.ones(3))
    rows = np.zeros(len(corners), dtype=ROW)
    rows["normal"] = np.where(lengths[:, None] > _FLAT, normals / np.maximum(lengths, _FLAT)[:, None], 0.0)
    rows["corners"] = corners
    head = " ".join(remarks()).encode("ascii", "replace")[:HEAD].ljust(HEAD) if remarks() else bytes(HEAD)
    return head + len(rows).to_bytes(4, "little") + rows.tobytes()


def _3mf(solid: Meshed) -> bytes:
    """Return a solid as a 3MF; the remarks are the metadata Description of its model, before its resources (3.4.1)."""
    vertices, faces = np.asarray(solid.vertices, dtype=float).tolist(), np.asarray(solid.faces).tolist()
    corners = "".join([f'<vertex x="{x}" y="{y}" z="{z}"/>' for x, y, z in vertices])
    triangles = "".join([f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in faces])
    told = f'<metadata name="Description">{escape(" ".join(remarks()))}</metadata>' if remarks() else ""
    model = (
        f'{_DECLARED}<model unit="millimeter" xml:lang="en-US" xmlns="{_CORE}">{told}<resources><object id="1" '
        f'type="model"><mesh><vertices>{corners}</vertices><triangles>{triangles}</triangles></mesh></object>'
        '</resources><build><item objectid="1"/></build></model>'
    )
    packed = BytesIO()
    with ZipFile(packed, "w", ZIP_DEFLATED) as archive:
        for name, text in {**_PARTS, "3D/3dmodel.model": model}.items():
            archive.writestr(ZipInfo(name), text, ZIP_DEFLATED)  # of the format's first day: no time of writing
    return packed.getvalue()
