"""What was built, as HTML: numbers, limits, pictures, tables and the files written. All text is escaped."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from html import escape
from typing import TYPE_CHECKING

from kit.core.quantity import Display
from kit.core.verdict import LEVEL
from kit.sheet.tables import checks_list
from kit.sheet.words import sentence

if TYPE_CHECKING:
    from kit.core.build import Build, Picture, Table
    from kit.drawing.space import Camera

_WIDTH, _HEIGHT = 640, 420  # CSS pixels
_MOST_LIVE = 16
_LIVE: dict[tuple[object, ...], tuple[Picture, str]] = {}  # what panels show, by where and how


def numbers_table(build: Build, display: Display | None = None) -> str:
    """Return the numbers of the shape, or nothing if there are none."""
    rows = "".join(
        f'<tr><th scope="row">{escape(sentence(number.meaning).rstrip("."))}</th><td class="fw-number">'
        f'<span class="fw-value" data-testid="shape-{number.name}">{escape(number.show(display))}</span></td></tr>'
        for number in build.numbers
    )
    if not rows:
        return ""
    return (
        '<table class="fw-table fw-results"><caption>The geometry</caption><thead><tr><th scope="col">Meaning</th>'
        f'<th scope="col" class="fw-number">Value</th></tr></thead><tbody>{rows}</tbody></table>'
    )


def checks_of_build(build: Build, display: Display | None = None, *, level: float = LEVEL) -> str:
    """Return every check of what was built in words; the mark is a word and a sign."""
    return checks_list(build.checks, display, level=level, title="Limits of the geometry")


def found(build: Build, display: Display | None = None, *, level: float = LEVEL) -> str:
    """Return what a shape comes to: its numbers, limits and cautions; `level` is how sure a limit must be to hold."""
    return numbers_table(build, display) + checks_of_build(build, display, level=level) + cautions_of_shape(build)


def cautions_of_shape(build: Build) -> str:
    """Return the cautions that come with the shape."""
    items = "".join(f"<li>{escape(text)}</li>" for text in build.cautions)
    return f'<ul class="fw-cautions">{items}</ul>' if items else ""


def picture(
    shown: Picture,
    display: Display | None = None,
    *,
    ids: str,
    width_px: float = _WIDTH,
    height_px: float | None = None,
    still: bool = False,
    camera: str | Camera = "corner",
    caption: bool = True,
    legend: bool = True,
) -> str:
    """Return one picture as HTML; a view in space can be turned by the reader unless only a `still` is wanted."""
    from kit.drawing.scene import Scene
    from kit.drawing.space import View, view_frame, view_svg
    from kit.drawing.svg import svg

    drawn = shown.draw(display or Display())
    if isinstance(drawn, Scene):
        body = svg(drawn, width_px, height_px, ids=ids, legend=legend)
    elif isinstance(drawn, str):
        body = f"<div>{drawn}</div>"
    elif not isinstance(drawn, View):
        from kit.drawing.plots import picture as plotted

        body = f"<div>{plotted(drawn, shown.words)}</div>"
    elif still:
        body = view_svg(drawn, camera, width_px, height_px, ids=ids)
    else:
        body = view_frame(drawn, height_px=int(height_px or _HEIGHT), title=shown.title)
    words = f"<figcaption>{escape(shown.title)}. {escape(sentence(shown.words))}</figcaption>" if caption else ""
    return f'<figure class="fw-figure">{body}{words}</figure>'


def live_picture(shown: Picture, display: Display, *, ids: str, size: tuple[float, float], camera: Camera) -> str:
    """Return a picture as a panel shows it, `size` CSS pixels; one that is known to be the same is not drawn again."""
    key = (ids, repr(display), size, camera)
    before = _LIVE.get(key)
    if before is not None and before[0].same(shown):
        return before[1]
    text = picture(
        shown, display, ids=ids, width_px=size[0], height_px=size[1], still=True, legend=False, camera=camera
    )
    _LIVE.pop(key, None)
    _LIVE[key] = shown, text
    while len(_LIVE) > _MOST_LIVE:
        _LIVE.pop(next(iter(_LIVE)))
    return text


def rows_table(table: Table) -> str:
    """Return a table of texts; the first cell of each row is its heading."""
    heads = "".join(f'<th scope="col">{escape(head)}</th>' for head in table.heads)
    body = "".join(
        f'<tr><th scope="row">{escape(first)}</th>{"".join(f"<td>{escape(cell)}</td>" for cell in others)}</tr>'
        for first, *others in table.rows
    )
    return (
        f'<div class="fw-scroll" role="group" aria-label="{escape(table.title)}" tabindex="0">'
        f'<table class="fw-table fw-rows"><caption>{escape(table.title)}</caption>'
        f"<thead><tr>{heads}</tr></thead><tbody>{body}</tbody></table></div>"
    )


def written_list(written: Mapping[str, Sequence[str]]) -> str:
    """Return what was written, by what it is: links relative to the sheet."""
    items = "".join(
        f"<li>{escape(sentence(what))} "
        + ", ".join(f'<a href="{escape(href)}">{escape(href.rsplit("/", 1)[-1])}</a>' for href in hrefs)
        + "</li>"
        for what, hrefs in written.items()
    )
    return f'<ul class="fw-written">{items}</ul>' if items else ""


def sections_of_shape(
    build: Build,
    display: Display | None = None,
    *,
    ids: str = "shape",
    written: Mapping[str, Sequence[str]] | None = None,
    still: bool = False,
    legend: bool = True,
    level: float = LEVEL,
) -> list[tuple[str, str]]:
    """Return the parts of a worked sheet that show the shape, each with its heading."""
    pictures = "".join(
        picture(shown, display, ids=f"{ids}{number}", still=still, legend=legend)
        for number, shown in enumerate(build.pictures)
    )
    parts = [
        ("Cautions of the geometry", cautions_of_shape(build)),
        ("Geometry", numbers_table(build, display) + checks_of_build(build, display, level=level) + pictures),
        ("Tables", "".join(rows_table(table) for table in build.tables)),
        ("Files", written_list(written or {})),
    ]
    return [(title, body) for title, body in parts if body]
