"""A whole HTML file that needs neither network nor script: the frame of sheets, books and worksheets."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

from kit.core.version import __version__
from kit.sheet.style import font_face, stylesheet

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup


@cache
def _templates() -> Environment:
    from jinja2 import Environment, PackageLoader, StrictUndefined

    return Environment(
        loader=PackageLoader("kit.sheet"),
        autoescape=True,
        undefined=StrictUndefined,
        keep_trailing_newline=True,
    )


def page(template: str, *, footer: Sequence[str], short: bool = False, **content: object) -> str:
    """Return a template of the folder `templates` filled in as a whole file; `footer` goes below each printed page."""
    page_style = (files("kit.sheet") / "page.css").read_text(encoding="utf-8")
    words = " · ".join(filter(None, footer))
    return (
        _templates()
        .get_template(template)
        .render(
            version=__version__,
            short=short,
            style=safe(font_face() + stylesheet()),
            page_style=safe(page_style.replace("FOOTER", _css_text(words))),
            **content,
        )
    )


def _css_text(words: str) -> str:
    """Return words as a CSS string; all but plain letters and digits as numbers, so that nothing ends it early."""
    return '"' + re.sub(r"[^A-Za-z0-9 ]", lambda sign: f"\\{ord(sign[0]):06x} ", words) + '"'


def safe(html: str) -> Markup:
    """Return HTML that a template takes as it is."""
    from markupsafe import Markup

    return Markup(html)
