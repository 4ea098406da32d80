"""Binary PLY of vertices and plain triangles, as scanning apps write it; all other PLY is for the mesh library.

Source: G. Turk, The PLY Polygon File Format (1994).
"""

import re

import numpy as np

from kit.geometry.mesh.mesh import Array, Index

_TYPES = {
    **dict.fromkeys(("char", "int8"), "i1"), **dict.fromkeys(("uchar", "uint8"), "u1"),
    **dict.fromkeys(("short", "int16"), "i2"), **dict.fromkeys(("ushort", "uint16"), "u2"),
    **dict.fromkeys(("int", "int32"), "i4"), **dict.fromkeys(("uint", "uint32"), "u4"),
    **dict.fromkeys(("float", "float32"), "f4"), **dict.fromkeys(("double", "float64"), "f8"),
}  # fmt: skip
_HEAD = re.compile(
    r"ply\r?\nformat binary_(little|big)_endian 1\.0\r?\n"
    r"element vertex (\d+)\r?\n((?:property \w+ \w+\r?\n)+)"
    r"element face (\d+)\r?\nproperty list (\w+) (\w+) vertex_ind(?:ex|ices)\r?\nend_header\r?\n"
)


def triangles(data: bytes) -> tuple[Array, Index] | None:
    """Return vertices (n, 3) in the file's unit and faces (m, 3); None of what has more, or other faces."""
    end = data.find(b"end_header", 0, 1 << 16)
    lines = data[: max(0, data.find(b"\n", end) + 1)].decode("ascii", "replace").splitlines(keepends=True)
    found = _HEAD.fullmatch("".join(line for line in lines if line.split()[:1] not in (["comment"], ["obj_info"])))
    if end < 0 or not found:
        return None
    order, vertices, listed, faces, head, corner = found.groups()
    sign = "<" if order == "little" else ">"
    columns = [line.split()[1:] for line in listed.splitlines()]
    names = [name for _, name in columns]
    kinds = {head, corner, *(kind for kind, _ in columns)}
    if not kinds <= _TYPES.keys() or "f" in _TYPES[head] + _TYPES[corner] or not int(vertices) or not int(faces):
        return None
    if len({*names}) < len(names) or not {*"xyz"} <= {*names}:
        return None
    row = np.dtype([(name, sign + _TYPES[kind]) for kind, name in columns])
    face = np.dtype([("count", sign + _TYPES[head]), ("corners", sign + _TYPES[corner], 3)])
    start = sum(map(len, lines))
    after = start + int(vertices) * row.itemsize
    if len(data) != after + int(faces) * face.itemsize:
        return None
    points = np.frombuffer(data, row, int(vertices), start)
    shapes = np.frombuffer(data, face, int(faces), after)
    if (shapes["count"] != 3).any():
        return None
    return np.column_stack([points[axis] for axis in "xyz"]).astype(float), shapes["corners"].astype(np.int64)
