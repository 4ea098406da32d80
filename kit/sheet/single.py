"""A whole station book as one HTML file: its pages one after the other, linked within."""

from __future__ import annotations

import re
from html import escape
from pathlib import Path

from kit.core.errors import KitError
from kit.sheet.packed import packed

MOST = 5_000_000  # bytes
_MAIN = re.compile(r"<main[^>]*>(.*)</main>", re.DOTALL)
_PAGE = re.compile(r'href="([^":#/?]+\.html)"')
_FILE = re.compile(r'<a href="files/[^"]*">(.*?)</a>', re.DOTALL)
_TEST = re.compile(r' data-testid="[^"]*"')  # by which the tests of a sheet find its numbers
_ID = re.compile(r'(?<=\sid=")[^"]+(?=")')
_LISTED = re.compile(r'(?<=\s)(aria-labelledby|aria-describedby|for|headers)="([^"]+)"')


def single_file(folder: Path) -> str:
    """Return the book in a folder as one file: its index, then every page in the order in which that names them.

    Files for a cutter or a printer are named and not linked: they do not come along. A file that would be larger than
    5 MB is packed (`kit.sheet.packed`).

    Raises:
        KitError: there is no book, one of its pages is missing, or even the packed file is larger than 5 MB.
    """
    index = _read(folder / "index.html")
    names = list(dict.fromkeys(_PAGE.findall(_main(index, folder / "index.html"))))
    places = {name: f"page-{number}" for number, name in enumerate(names, 1)}
    pages = [_placed(_main(_read(folder / name), folder / name), places, places[name]) for name in names]
    begin, end = index[: index.index("<main")], index[index.index("</main>") + len("</main>") :]
    first = _placed(_main(index, folder / "index.html"), places, "page-0")
    short = " fw-short" if "fw-short" in index[index.index("<main") : index.index(">", index.index("<main"))] else ""
    articles = "".join(
        f'<article class="fw-page-of-book" id="{places[name]}" aria-label="{escape(name)}">{body}</article>'
        for name, body in zip(names, pages, strict=True)
    )
    whole = f'{begin}<main class="fw-sheet{short}">{first}{articles}</main>{end}'
    if len(whole.encode()) > MOST:
        whole = packed(whole)
    if len(whole.encode()) > MOST:
        size = f"{len(whole.encode()) / 1e6:.1f} MB"
        raise KitError(
            f"the book in one file has {size}, more than {MOST / 1e6:.0f} MB; write a short one, without --full"
        )
    return whole


def _read(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except OSError as error:
        raise KitError(
            f"{path.name} of the book in {str(path.parent)!r} cannot be read; write the book anew"
        ) from error


def _main(html: str, path: Path) -> str:
    found = _MAIN.search(html)
    if found is None:
        raise KitError(f"{path.name} in {str(path.parent)!r} is no page of a book; write the book anew")
    return found[1]


def _placed(body: str, places: dict[str, str], place: str) -> str:
    """Return a page's content with ids of its own, links to other pages within the file, and one heading level down."""
    own = set(_ID.findall(body))
    body = _ID.sub(lambda found: f"{place}-{found[0]}", body)
    body = re.sub(r'(href="#|url\(#)([^")]+)', lambda f: f"{f[1]}{place}-{f[2]}" if f[2] in own else f[0], body)
    body = _LISTED.sub(lambda f: f'{f[1]}="{" ".join(f"{place}-{i}" if i in own else i for i in f[2].split())}"', body)
    body = _FILE.sub(r"\1", _TEST.sub("", body))
    return _PAGE.sub(lambda found: f'href="#{places[found[1]]}"' if found[1] in places else found[0], body)
