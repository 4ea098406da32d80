"""What can be told about a mesh file before it is read: its kind, and whether its counts can be true."""

import io
import re
import zipfile
import zlib
from collections.abc import Mapping

import numpy as np

from kit.core.errors import KitError
from kit.geometry.mesh import glb, stl

MOST_BYTES = 400_000_000
MOST_VERTICES = 5_000_000
MOST_FACES = 10_000_000
MOST_PACKED = 1_000_000_000  # unpacked bytes of a 3MF file
MOST_RATIO = 200  # unpacked bytes to packed bytes of one file in it
KINDS = ("obj", "stl", "ply", "glb", "3mf")
ALLOWED = "OBJ, STL, PLY, GLB or 3MF"

# Bytes of the numbers that a PLY header may name (G. Turk, The PLY Polygon File Format, 1994).
_SIZES = dict.fromkeys(("char", "uchar", "int8", "uint8"), 1)
_SIZES |= dict.fromkeys(("short", "ushort", "int16", "uint16"), 2)
_SIZES |= dict.fromkeys(("int", "uint", "int32", "uint32", "float", "float32"), 4)
_SIZES |= dict.fromkeys(("double", "float64"), 8)


def kind_of(data: bytes, name: str) -> str:
    """Return 'obj', 'stl', 'ply', 'glb' or '3mf' for the file's content.

    Raises:
        KitError: the file is empty, of another kind, or its name says another kind than its content.
    """
    suffix = name.rsplit(".", 1)[-1].lower() if "." in name else ""
    if not data.strip(b"\0 \t\r\n"):
        raise KitError(f"{name} is empty; export the scan again as {ALLOWED}.")
    found = _looks_like(data, suffix)
    if found is None:
        if suffix in KINDS:
            raise KitError(f"{name} does not hold what its name says, nor {ALLOWED}; export the scan again.")
        raise KitError(f"{name} is no mesh that can be read; export the scan as {ALLOWED}.")
    if suffix in KINDS and suffix != found:
        raise KitError(f"{name} holds {found.upper()}, not {suffix.upper()}; rename it to end in .{found}.")
    return found


def _looks_like(data: bytes, suffix: str) -> str | None:
    head = data[:4096]
    if head[:4] == b"PK\x03\x04":
        return "3mf"
    if head[:4] == glb.MAGIC:
        return "glb"
    if re.match(rb"ply\r?\n", head):
        return "ply"
    text = head.lstrip()
    if text[:5].lower() == b"solid" and re.search(rb"facet\s+normal|endsolid", head, re.IGNORECASE):
        return "stl"
    if b"\0" not in head and re.search(rb"^\s*(v|vn|vt|f|o|g|mtllib|usemtl)\s", head, re.MULTILINE):
        return "obj"
    # Binary STL has no mark of its own: its length must fit its count, unless its name says what it is.
    if len(data) >= 84 and (len(data) == 84 + 50 * int.from_bytes(data[80:84], "little") or suffix == "stl"):
        return "stl"
    return None


def check_sizes(data: bytes, name: str, kind: str) -> tuple[int, int]:
    """Refuse a file whose counts are absurd, more than it can hold, or more than is allowed.

    Returns the counts of vertices and faces that its header promises, 0 where there is no header.

    Raises:
        KitError: with the counts or sizes given and allowed.
    """
    if len(data) > MOST_BYTES:
        raise KitError(
            f"{name} has {len(data) / 1e6:,.0f} MB; at most {MOST_BYTES / 1e6:,.0f} MB are read: thin the scan "
            "in the scanning app or export it as binary PLY."
        )
    if kind == "ply":
        return _check_ply(data, name)
    if kind == "glb":
        counts = glb.claimed(data, name)
        check_counts(name, *counts)
        return 0, counts[1]
    {"stl": _check_stl, "3mf": _check_3mf, "obj": _check_obj}[kind](data, name)
    return 0, 0


def unpacked(data: bytes, kind: str) -> int:
    """Return how many bytes a file holds that `check_sizes` has let pass, unpacked if it is packed."""
    if kind != "3mf":
        return len(data)
    with zipfile.ZipFile(io.BytesIO(data)) as packed:
        return sum(part.file_size for part in packed.infolist())


def check_counts(name: str, vertices: int, faces: int) -> None:
    """Refuse counts above the bounds.

    Raises:
        KitError: with the counts given and allowed.
    """
    if vertices > MOST_VERTICES or faces > MOST_FACES:
        raise KitError(
            f"{name} claims {vertices:,} vertices and {faces:,} faces; at most {MOST_VERTICES:,} and "
            f"{MOST_FACES:,} are read: thin the scan first."
        )


def _check_stl(data: bytes, name: str) -> None:
    if stl.is_text(data):
        check_counts(name, 0, len(re.findall(rb"\bendfacet\b", data, re.IGNORECASE)))
        if not re.search(rb"endsolid", data[-4096:], re.IGNORECASE):
            raise KitError(f"{name} stops before its end; copy or export it again.")
        return
    check_counts(name, 0, stl.claimed(data))
    check_counts(name, 0, max(0, len(data) - stl.HEAD) // stl.ROW.itemsize)


def _check_ply(data: bytes, name: str) -> tuple[int, int]:
    end = data.find(b"end_header", 0, 1 << 16)
    if end < 0:
        raise KitError(f"{name} has no end of its PLY header; copy or export it again.")
    lines = data[:end].decode("ascii", "replace").splitlines()
    text = any(line.split()[:2] == ["format", "ascii"] for line in lines)
    counts: dict[str, int] = {}
    least = 0  # bytes that the counted elements need at the very least
    current = 0
    listed: list[str] = []  # the properties of the element read last
    rows: list[tuple[int, list[str]]] = []
    for words in map(str.split, lines):
        if words[:1] == ["element"]:
            if len(words) != 3 or not words[2].isdigit():
                raise KitError(f"{name} has a count in its PLY header that is no number; export it again.")
            current = int(words[2])
            counts[words[1]] = current
            listed = []
            rows.append((current, listed))
        elif words[:1] == ["property"] and len(words) > 2:
            listed.append(" ".join(words[1:-1]))
            least += current * (2 if text else _SIZES.get(words[2 if words[1] == "list" else 1], 1))
    check_counts(name, counts.get("vertex", 0), counts.get("face", 0))
    for element, count in counts.items():
        if count > MOST_FACES:
            raise KitError(f"{name} claims {count:,} elements {element!r}; at most {MOST_FACES:,} are read.")
    if len(data) - end < least:
        raise KitError(
            f"{name} claims {counts.get('vertex', 0):,} vertices and {counts.get('face', 0):,} faces but stops "
            "before its end; copy or export it again."
        )
    body = data.find(b"\n", end) + 1
    more = _lines_left(data, body, counts) if text else _rows_left(data, body, rows, b"big" in data[:end])
    if more:
        raise KitError(
            f"{name} claims {counts.get('vertex', 0):,} vertices and {counts.get('face', 0):,} faces but holds "
            f"{more:,} {'lines' if text else 'bytes'} more; export it again."
        )
    return counts.get("vertex", 0), counts.get("face", 0)


def _lines_left(data: bytes, body: int, counts: Mapping[str, int]) -> int:
    """Return how many lines of a text file hold more than its header counts, one line for each."""
    stream = io.BytesIO(data)
    stream.seek(body)
    return max(0, sum(1 for line in stream if line.strip()) - sum(counts.values()))


def _rows_left(data: bytes, body: int, rows: list[tuple[int, list[str]]], big: bool) -> int:
    """Return how many bytes of a binary file hold more than its header counts, where it ends in plain triangles."""
    place = body
    for number, (count, listed) in enumerate(rows):
        lists = [words.split() for words in listed if words.startswith("list ")]
        size = sum(_SIZES.get(words, 0) for words in listed)
        if lists and (number < len(rows) - 1 or len(lists) > 1 or not listed[0].startswith("list ")):
            return 0
        if lists:
            head, corner = (_SIZES.get(word, 0) for word in (*lists[0], "", "")[1:3])
            size += head + 3 * corner
            if head == 0 or corner == 0 or place + count * size > len(data):
                return 0
            starts = np.ndarray((count, head), np.uint8, data, place, (size, 1))
            if (starts != np.array([3], dtype=f"{'>' if big else '<'}u{head}").view(np.uint8)).any():
                return 0
        place += count * size
        if lists:
            return len(data) - place if len(data) - place >= size else 0
    return 0


def _check_obj(data: bytes, name: str) -> None:
    check_counts(name, data.count(b"\nv "), data.count(b"\nf "))


def _check_3mf(data: bytes, name: str) -> None:
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            parts = packed.infolist()
            unpacked = sum(part.file_size for part in parts)
            dense = any(part.file_size > MOST_RATIO * max(part.compress_size, 1) + 1_000_000 for part in parts)
            if unpacked > MOST_PACKED or dense or len(parts) > 10_000:
                raise KitError(
                    f"{name} unpacks to {unpacked / 1e6:,.0f} MB in {len(parts):,} parts, which no scan of its "
                    f"size does; at most {MOST_PACKED / 1e6:,.0f} MB and a ratio of {MOST_RATIO} are read."
                )
            models = [part for part in parts if part.filename.lower().endswith(".model")]
            if not models:
                raise KitError(f"{name} is a packed file without a 3MF model; export the scan as 3MF, PLY or OBJ.")
            for model in models:
                content = packed.read(model)
                if b"<!DOCTYPE" in content or b"<!ENTITY" in content:
                    raise KitError(f"{name} defines its own XML entities, which no scan needs; export it again.")
                check_counts(name, content.count(b"<vertex "), content.count(b"<triangle "))
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError, RuntimeError) as error:
        if isinstance(error, KitError):
            raise
        raise KitError(f"{name} is a damaged 3MF file; copy or export it again.") from error
