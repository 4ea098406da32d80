"""The store that comes with an installed copy: every page stated once. Called when a wheel is built.

python -m kit.subjects.shipping FOLDER
"""

import sys
from pathlib import Path

from kit.core.model.store import written
from kit.subjects import names, source, stated


def ship(folder: Path) -> None:
    """Write a file for every page into `folder`, which is made if need be."""
    folder.mkdir(parents=True, exist_ok=True)
    for name in names():
        (folder / f"{name}.txt").write_text(written(stated(name), source(name)), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    ship(Path(sys.argv[1]))
