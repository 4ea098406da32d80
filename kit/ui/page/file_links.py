"""Links to written files, as the server of the notebooks serves them."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from pathlib import Path
from urllib.parse import quote


def file_links(paths: Iterable[Path], folder: Path) -> str:
    """Return links to files below the folder of the page's notebook; they open in a tab of their own.

    The page stands at …/doc/tree/NAME, files are served at …/files/NAME.
    """
    items = []
    for path in paths:
        name = path.resolve().relative_to(folder.resolve()).as_posix()
        href = f"../../files/{quote(name)}"
        items.append(f'<li><a href="{escape(href)}" target="_blank" rel="noopener">{escape(name)}</a></li>')
    listed = "".join(items) or "<li>nothing to write</li>"
    return f'<p role="status">Written:</p><ul class="fw-files">{listed}</ul>'
