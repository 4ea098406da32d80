"""Files for printing a solid: STL, which has no unit (everyone reads millimeters), and 3MF, which states it."""

from pathlib import Path
from typing import TYPE_CHECKING

from kit.core.errors import KitError
from kit.core.files import write_atomic

if TYPE_CHECKING:
    import trimesh

KINDS = (".stl", ".3mf")


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
    write_atomic(path, content)
