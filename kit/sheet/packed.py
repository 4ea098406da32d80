"""A large book in one file: what its numbers come from, and what turns a view, is packed until the file is opened.

What a short book has stays as it is, so that a reader without script lacks only that, and is told so in its place.
"""

from __future__ import annotations

import re
import zlib
from base64 import b64encode
from html import unescape
from importlib.resources import files

_PIECES, _STILL = "\x1e", "\x1f"  # control characters: HTML has none
_SECTION = re.compile(r"(?<=<h2>)(Derivation|Uncertainty|Geometry)(</h2>)(.*?)(?=</section>)", re.DOTALL)
_FIGURE = re.compile(r"<figure .*?</figure>", re.DOTALL)
_VIEW = re.compile(r'<iframe class="fw-space".*?</iframe>', re.DOTALL)
_DRAWN = re.compile(r"&lt;svg .*?&lt;/svg&gt;", re.DOTALL)
_TOLD = (
    "This is packed, so that the book is one small file: a browser that runs scripts shows it. "
    "The book's folder has it in a sheet of its own."
)


def packed(html: str) -> str:
    """Return a whole file with what a short book has not packed once, and a script that unpacks it.

    That are derivations, budgets, further pictures, and what turns the first one; its still stays and goes into it.
    """
    pieces: list[str] = []

    def aside(piece: str, shown: str) -> str:
        pieces.append(piece)
        return f'<div class="fw-packed">{shown}</div>'

    def figure(found: re.Match[str]) -> str:
        if _FIGURE.search(found.string, 0, found.start()):  # not the first
            return aside(found[0], f'<p class="fw-remark">{_TOLD}</p>')
        return _VIEW.sub(view, found[0])

    def view(found: re.Match[str]) -> str:
        drawn = _DRAWN.search(found[0])
        if drawn is None:
            return found[0]
        still = unescape(drawn[0]).replace("still-view", f"turned-{len(pieces)}")  # ids of its own
        return aside(found[0].replace(drawn[0], _STILL), still)

    def section(found: re.Match[str]) -> str:
        heading, end, body = found.groups()
        shown = _FIGURE.sub(figure, body) if heading == "Geometry" else aside(body, f'<p class="fw-remark">{_TOLD}</p>')
        return f"{heading}{end}{shown}"

    html = _SECTION.sub(section, html)
    text = _PIECES.join(pieces).encode()
    bare = zlib.compress(text, 9)[2:-4]  # without the head and the sum of RFC 1950
    script = (files("kit.sheet") / "unpack.js").read_text(encoding="utf-8")
    kept = (
        f'<script type="application/octet-stream" id="fw-pieces" data-size="{len(text)}">'
        f"{b64encode(bare).decode('ascii')}</script><script>{script}</script>"
    )
    return html.replace("</body>", f"{kept}</body>")
