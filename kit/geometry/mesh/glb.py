"""What can be told about a GLB file before it is read: whether its counts can be true, and whether it can be read.

Source: Khronos Group, glTF 2.0 Specification (ISO/IEC 12113:2022), sections 3 and 4; lengths are meters (3.4).
"""

import json
from collections.abc import Mapping
from typing import Any

from kit.core.errors import KitError

MAGIC = b"glTF"
MILLIMETERS = 1000.0  # in one unit
PACKED = ("KHR_draco", "EXT_meshopt")
BYTES = {5120: 1, 5121: 1, 5122: 2, 5123: 2, 5125: 4, 5126: 4}
PARTS = {"SCALAR": 1, "VEC2": 2, "VEC3": 3, "VEC4": 4, "MAT2": 4, "MAT3": 9, "MAT4": 16}
SHARED = 4  # so often may the same bytes be used


def claimed(data: bytes, name: str) -> tuple[int, int]:
    """Return how many vertices and faces a GLB file says that its scene shows, each mesh as often as it is placed.

    Raises:
        KitError: it stops before its end, is of another version, packed, or damaged, or its data lies elsewhere.
    """
    if len(data) < 20 or int.from_bytes(data[8:12], "little") > len(data):
        raise KitError(f"{name} stops before its end; copy or export it again.")
    version = int.from_bytes(data[4:8], "little")
    if version != 2:
        raise KitError(f"{name} is GLB of version {version}; export it as version 2, or as PLY or OBJ.")
    try:
        content = json.loads(data[20 : 20 + int.from_bytes(data[12:16], "little")])
        return _counted(content, len(data), name)
    except (KeyError, IndexError, TypeError, AttributeError, ValueError, RecursionError) as error:
        if isinstance(error, KitError):
            raise
        raise KitError(f"{name} is a damaged GLB file; copy or export it again.") from error


def _counted(content: Mapping[str, Any], size: int, name: str) -> tuple[int, int]:
    for extension in content.get("extensionsRequired", []):
        if str(extension).startswith(PACKED):
            raise KitError(
                f"{name} is packed ({extension}), which is not read; export it without compression, or as PLY or OBJ."
            )
    if any("uri" in buffer and not buffer["uri"].startswith("data:") for buffer in content.get("buffers", [])):
        raise KitError(f"{name} keeps its surface in another file; export it as one GLB file, or as PLY or OBJ.")
    accessors = content.get("accessors", [])
    held = sum(_count(each) * PARTS[each["type"]] * BYTES[each["componentType"]] for each in accessors)
    if held > SHARED * size:
        raise KitError(
            f"{name} claims {held / 1e6:,.0f} MB of numbers but holds {size / 1e6:,.1f} MB; export it again."
        )
    vertices = faces = 0
    for mesh in _placed(content, name):
        for primitive in content["meshes"][mesh]["primitives"]:
            corners = _count(accessors[primitive["attributes"]["POSITION"]])
            indices = _count(accessors[primitive["indices"]]) if "indices" in primitive else corners
            vertices += corners
            faces += max(0, indices - 2) if primitive.get("mode", 4) in (5, 6) else indices // 3
    return vertices, faces


def _count(accessor: Mapping[str, Any]) -> int:
    count = accessor["count"]
    if not isinstance(count, int) or count < 0:
        raise ValueError(count)
    return count


def _placed(content: Mapping[str, Any], name: str) -> list[int]:
    """Return the mesh of each node that has one.

    Raises:
        KitError: a node that is placed more than once, as in a circle.
    """
    nodes = content.get("nodes", [])
    children = [child for node in nodes for child in node.get("children", [])]
    if len(set(children)) < len(children):
        raise KitError(f"{name} places a part of its scene more than once, which GLB may not; export it again.")
    reached, below = set(), set(children)
    ahead = [number for number in range(len(nodes)) if number not in below]
    while ahead:
        number = ahead.pop()
        reached.add(number)
        ahead += nodes[number].get("children", [])
    if len(reached) < len(nodes):
        raise KitError(f"{name} places parts of its scene in a circle; export it again.")
    return [node["mesh"] for node in nodes if "mesh" in node]
