"""Where the kit's data and notebooks are: beside the package in a clone, inside it in an installed copy."""

from functools import cache
from hashlib import sha256
from pathlib import Path

from kit.core.errors import KitError

_PACKAGE = Path(__file__).resolve().parent.parent  # kit/
_OWN = (".py", ".css", ".html", ".js", ".woff2")


def data_dir() -> Path:
    """Return the folder of tables and demo jobs.

    Raises:
        KitError: neither place has it.
    """
    return _find("data")


def notebooks_dir() -> Path:
    """Return the folder of notebooks.

    Raises:
        KitError: neither place has it.
    """
    return _find("notebooks")


@cache
def kit_digest() -> str:
    """Return 64 hexadecimal digits that change with any source file, style, template or table of the kit."""
    own = [path for path in _PACKAGE.rglob("*") if path.suffix in _OWN and "__pycache__" not in path.parts]
    found = sha256()
    for path in sorted([*own, *(data_dir() / "tables").glob("*.csv")]):
        found.update(path.name.encode() + sha256(path.read_bytes()).digest())
    return found.hexdigest()


def _find(name: str) -> Path:
    # The wheel's copy comes first: beside an installed package may stand a stranger's folder of that name.
    for folder in (_PACKAGE / f"_{name}", _PACKAGE.parent / name):
        if folder.is_dir():
            return folder
    raise KitError(
        f"the folder {name!r} is neither beside the package nor inside it ({_PACKAGE}); "
        "install fitwright again or work in a whole clone"
    )
