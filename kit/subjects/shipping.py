"""The store that comes with an installed copy: every page stated once. Called when a wheel is built.

python -m kit.subjects.shipping FOLDER
"""

import multiprocessing
import os
import sys
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path

from kit.core.model.store import written
from kit.subjects import names, source, stated

_MOST = 4  # processes: each loads sympy


def ship(folder: Path) -> None:
    """Write a file for every page into `folder`, which is made if need be; by as many processes as there are cores."""
    folder.mkdir(parents=True, exist_ok=True)
    processes = min(os.cpu_count() or 1, _MOST)
    with ProcessPoolExecutor(processes, multiprocessing.get_context("spawn")) as pool:
        list(pool.map(partial(_ship_page, folder), reversed(names())))  # the last pages sum up and take longest


def _ship_page(folder: Path, name: str) -> None:
    (folder / f"{name}.txt").write_text(written(stated(name), source(name)), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    ship(Path(sys.argv[1]))
