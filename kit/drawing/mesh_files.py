"""Files for printing a solid: STL, which has no unit (everyone reads millimeters), and 3MF, which states it.

Sources: 3D Systems, StereoLithography Interface Specification (1989); 3MF Core Specification 1.2.
"""

from hashlib import sha256
from io import BytesIO
from pathlib import Path
from uuid import NAMESPACE_OID, uuid5
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
_DECLARED = "<?xml version='1.0' encoding='utf-8'?>\n"
_IN_PLACE = "1.0 0.0 0.0 0.0 1.0 0.0 0.0 0.0 1.0 0.0 0.0 0.0"
_CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
_SPACES = {
    "m": "http://schemas.microsoft.com/3dmanufacturing/material/2015/02",
    "p": "http://schemas.microsoft.com/3dmanufacturing/production/2015/06",
    "b": "http://schemas.microsoft.com/3dmanufacturing/beamlattice/2017/02",
    "s": "http://schemas.microsoft.com/3dmanufacturing/slice/2015/07",
    "sc": "http://schemas.microsoft.com/3dmanufacturing/securecontent/2019/04",
}
_TYPES = {
    "jpeg": "image/jpeg",
    "jpg": "image/jpeg",
    "model": "application/vnd.ms-package.3dmanufacturing-3dmodel+xml",
    "png": "image/png",
    "rels": "application/vnd.openxmlformats-package.relationships+xml",
    "texture": "application/vnd.ms-package.3dmanufacturing-3dmodeltexture",
}
_RELATIONS = (
    f'{_DECLARED}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship '
    'Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel" Target="/3D/3dmodel.model" Id="rel0"/>'
    "</Relationships>"
)


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
    """Return a solid as a 3MF whose identifiers follow from what it holds.

    The remarks are the metadata Description of its model. Source: 3MF Core Specification 1.2, 3.4.1 (metadata stand in
    the model, before its resources).
    """
    core, spaces = f'xmlns="{_CORE}"', [f'xmlns:{name}="{uri}"' for name, uri in _SPACES.items()]
    told = f'<metadata name="Description">{escape(" ".join(remarks()))}</metadata>' if remarks() else ""
    vertices = np.asarray(solid.vertices, dtype=float).tolist()
    faces = np.asarray(solid.faces).tolist()
    corners = "".join([f'<vertex x="{x}" y="{y}" z="{z}" />' for x, y, z in vertices])
    triangles = "".join([f'<triangle v1="{a}" v2="{b}" v3="{c}" />' for a, b, c in faces])

    def model(*ids: object) -> str:
        return (
            f'{_DECLARED}<model {" ".join([core, *sorted(spaces)])} unit="millimeter">{told}<resources>'
            f'<object id="1" name="geometry_0" type="model" p:UUID="{ids[0]}"><mesh><vertices>{corners}</vertices>'
            f'<triangles>{triangles}</triangles></mesh></object></resources><build p:UUID="{ids[1]}">'
            f'<item {" ".join([core, *spaces])} objectid="1" transform="{_IN_PLACE}" '
            f'p:UUID="{ids[2]}" partnumber="geometry_0"/></build></model>'
        )

    bare = sha256(model("", "", "").encode()).hexdigest()
    types = "".join(f'<Default Extension="{end}" ContentType="{kind}"/>' for end, kind in _TYPES.items())
    space = "http://schemas.openxmlformats.org/package/2006/content-types"
    packed = BytesIO()
    with ZipFile(packed, "w", ZIP_DEFLATED) as archive:
        for name, text in (
            ("3D/3dmodel.model", model(*(uuid5(NAMESPACE_OID, f"{bare} {number}") for number in range(3)))),
            ("[Content_Types].xml", f'{_DECLARED}<Types xmlns="{space}">{types}</Types>'),
            ("_rels/.rels", _RELATIONS),
        ):
            archive.writestr(ZipInfo(name), text, ZIP_DEFLATED)
    return packed.getvalue()
