"""Vertices and faces out of a mesh file's bytes by the mesh library, in this process or in one that can be stopped.

Run as `python -m kit.geometry.mesh.parse KIND`, it reads a file's bytes and writes arrays.
"""

import io
import logging
import os
import subprocess
import sys
from typing import Any

import numpy as np

from kit.geometry.mesh.glb import MILLIMETERS
from kit.geometry.mesh.mesh import Array, Index

Parsed = tuple[Array, Index, float]

# Units that a 3MF file may state, in millimeters (3MF Core Specification 1.2.3, section 3.4).
UNITS = {"micron": 1e-3, "millimeter": 1.0, "centimeter": 10.0, "inch": 25.4, "foot": 304.8, "meter": 1000.0}


def parsed(data: bytes, kind: str) -> Parsed:
    """Return vertices (n, 3), faces (m, 3) and the millimeters in one unit (1 where the file states none)."""
    import trimesh

    logging.getLogger("trimesh").setLevel(logging.ERROR)  # a missing texture is no news
    options: dict[str, Any] = {"skip_materials": True} if kind in ("obj", "glb") else {}
    with np.errstate(all="ignore"):
        loaded: Any = trimesh.load(io.BytesIO(data), file_type=kind, process=False, **options)
    factor = 1.0
    if isinstance(loaded, trimesh.Scene):
        factor = MILLIMETERS if kind == "glb" else UNITS.get(str(loaded.units or "millimeter"), 1.0)
        loaded = loaded.to_mesh() if loaded.geometry else trimesh.Trimesh()
    elif kind == "3mf":
        factor = UNITS.get(str(loaded.units or "millimeter"), 1.0)
    faces = getattr(loaded, "faces", None)
    return (
        np.asarray(loaded.vertices, dtype=float).reshape(-1, 3),
        np.zeros((0, 3), dtype=np.int64) if faces is None else np.asarray(faces, dtype=np.int64).reshape(-1, 3),
        factor,
    )


def parsed_apart(data: bytes, kind: str, seconds: float) -> Parsed:
    """Return the same from a process of its own, which is ended when `seconds` are over.

    Raises:
        TimeoutError: they were.
        ValueError: the process failed.
    """
    path = os.pathsep.join(part for part in sys.path if part)
    try:
        done = subprocess.run(
            [sys.executable, "-m", __name__, kind],
            input=data,
            capture_output=True,
            timeout=seconds,
            env={**os.environ, "PYTHONPATH": path},
            check=True,
        )
    except subprocess.TimeoutExpired as error:
        raise TimeoutError from error
    except subprocess.CalledProcessError as error:
        raise ValueError("the mesh library could not read it") from error
    with np.load(io.BytesIO(done.stdout), allow_pickle=False) as arrays:
        return arrays["vertices"], arrays["faces"], float(arrays["factor"])


def main() -> None:
    """Read bytes from standard input, and write their arrays to standard output."""
    vertices, faces, factor = parsed(sys.stdin.buffer.read(), sys.argv[1])
    stream = io.BytesIO()
    np.savez(stream, vertices=vertices, faces=faces, factor=np.array(factor))
    sys.stdout.buffer.write(stream.getvalue())


if __name__ == "__main__":
    main()
