"""Where the kit's data and notebooks are: beside the package in a clone, inside it in an installed copy."""

from pathlib import Path

from kit.core.errors import KitError

_PACKAGE = Path(__file__).resolve().parent.parent  # kit/


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


def beside(folder: Path, name: str) -> Path:
    """Return the path of a file beside the job, or of one that came with the demo.

    Raises:
        KitError: there is neither.
    """
    for path in (folder / name, data_dir() / name):
        if path.is_file():
            return path
    raise KitError(f"there is no file {name!r} beside the job in {str(folder)!r}; put it there")


def _find(name: str) -> Path:
    # The wheel's copy comes first: beside an installed package may stand a stranger's folder of that name.
    for folder in (_PACKAGE / f"_{name}", _PACKAGE.parent / name):
        if folder.is_dir():
            return folder
    raise KitError(
        f"the folder {name!r} is neither beside the package nor inside it ({_PACKAGE}); "
        "install fitwright again or work in a whole clone"
    )
