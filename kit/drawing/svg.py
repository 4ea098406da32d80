"""A scene as SVG text: inline for panels and sheets, or a standalone file in true millimeters."""

import re
from collections import defaultdict
from html import escape
from math import cos, degrees, sin, tau
from textwrap import wrap

from kit.core.errors import KitError
from kit.drawing.layers import Layer
from kit.drawing.marks import CAPITALS, SUBSCRIPT, Curve, Label, Solid, Stroke, pieces, text_width
from kit.drawing.page import Page, lay_out
from kit.drawing.primitives import TONES
from kit.drawing.remarks import remarks
from kit.drawing.scene import Scene

PIXELS_PER_MM = 96 / 25.4
"""CSS pixels: paper millimeters are true on a printed sheet and nearly so on a screen."""
TALLEST = 0.75
"""Height of the box, as a share of its width, where none is asked for ..."""
ROOM = 100.0
"""... but this much at least, paper mm: notes do not shrink in a narrow box."""
REMARK, LINE, WIDE = 2.5, 3.5, 1.4
"""Height of a remark's font and of its line, and width of its mean character, paper mm."""
FONT = "Arial, Helvetica, 'Liberation Sans', sans-serif"


def svg(
    scene: Scene,
    width_px: float = 640,
    height_px: float | None = None,
    *,
    ids: str = "figure",
    legend: bool = True,
) -> str:
    """Return a scene as inline SVG for HTML, `width_px` wide.

    With `height_px` the box has exactly this height, so that a page stands still while a slider moves;
    without, the height follows the content, up to three quarters of the width (100 mm at least) and the
    legend. `ids` begins every id: give each picture on a page its own. Colors follow JupyterLab's theme
    variables where there are any; else, and in print, black on white.

    Raises:
        KitError: the box has no size, or `ids` is not a letter followed by letters, digits, ``-`` or ``_``.
    """
    for name, given in (("width", width_px), ("height", height_px)):
        if given is not None and not 0 < given < float("inf"):
            raise KitError(f"The {name} of a picture was given as {given:g} px; it must be more than 0 px.")
    if not re.fullmatch(r"[A-Za-z][A-Za-z0-9_-]*", ids):
        raise KitError(f"A picture's ids were to begin with {ids!r}; use a letter, then letters, digits, '-', '_'.")
    box = height_px / PIXELS_PER_MM if height_px else max(TALLEST * width_px / PIXELS_PER_MM, ROOM)
    page = lay_out(scene, width_px / PIXELS_PER_MM, box, legend=legend, exact=height_px is not None)
    height = _number(width_px * page.height / page.width)
    body, used = _body(page, "currentColor", 2)
    return "\n".join(
        [
            f'<svg class="fw-drawing" width="{_number(width_px)}" height="{height}" {_view_box(page, 2)} '
            f'role="img" aria-labelledby="{ids}-title {ids}-desc">',
            f'<title id="{ids}-title">{escape(scene.title)}</title>',
            f'<desc id="{ids}-desc">{escape(scene.alt)}</desc>',
            f"<style>{_style(used)}</style>",
            *body,
            "</svg>",
        ]
    )


def svg_file(scene: Scene, scale: float = 1.0, *, legend: bool = False) -> str:
    """Return a scene as a standalone SVG file whose user unit is one millimeter on paper, black on white.

    `scale` is paper mm per model mm, 1 for full size; views with their own magnification are that much
    larger.

    Raises:
        KitError: the scale is not a number above 0.
    """
    if not 0 < scale < float("inf"):
        raise KitError(f"A drawing was asked for at scale {scale:g}; the scale must be a number above 0.")
    page = lay_out(scene, 0.0, 0.0, legend=legend, scale=scale)
    body, _ = _body(page, "#000", 4)
    below = [line for remark in remarks() for line in wrap(remark, max(20, int(page.width / WIDE)))]
    height = page.height + LINE * len(below)  # remarks stand in a strip of their own below the drawing
    box = f'viewBox="0 0 {_number(page.width, 4)} {_number(height, 4)}"'
    words = (
        f'<text class="fw-remark" x="1" y="{_number(page.height + LINE * row - 1, 4)}" font-family="{FONT}" '
        f'font-size="{REMARK}" font-weight="bold">{escape(line)}</text>'
        for row, line in enumerate(below, start=1)
    )
    return "\n".join(
        [
            '<?xml version="1.0" encoding="UTF-8"?>',
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{_number(page.width, 4)}mm" '
            f'height="{_number(height, 4)}mm" {box if below else _view_box(page, 4)}>',
            f"<title>{escape(scene.title)}</title>",
            f"<desc>{escape(' '.join((*remarks(), scene.alt)))}</desc>",
            *body,
            *words,
            "</svg>",
            "",
        ]
    )


def _body(page: Page, ink: str, digits: int) -> tuple[list[str], list[Layer]]:
    """Return one group of elements per line kind, and the kinds."""
    fills: list[str] = []
    lines: defaultdict[Layer, list[str]] = defaultdict(list)
    heads: defaultdict[Layer, list[str]] = defaultdict(list)
    words: list[str] = []
    for mark in page.marks:
        if isinstance(mark, Label):
            words.append(_label(mark, page.height, digits))
            continue
        path = _path(mark, page.height, digits)
        if isinstance(mark, Solid):
            heads[mark.layer].append(path)
            continue
        if mark.fill:
            fills.append(f'<path opacity="{TONES[mark.fill]}" d="{path}"/>')
        lines[mark.layer].append(f'<path d="{path}"/>')
    used = [layer for layer in Layer if layer in lines]
    groups = [f'<g class="fw-fill" fill="{ink}">{"".join(fills)}</g>'] if fills else []
    for layer in used:
        kind = layer.value
        dashes = f' stroke-dasharray="{" ".join(map(_number, kind.dashes))}"' if kind.pattern else ""
        # All arrowheads of a kind are one path: nobody asks for a single one.
        solid = f'<path fill="{ink}" stroke="none" d="{"".join(heads[layer])}"/>' if layer in heads else ""
        groups.append(
            f'<g class="fw-{layer.css}" fill="none" stroke="{ink}" stroke-width="{kind.width}" '
            f'stroke-linejoin="round"{dashes}>{"".join(lines[layer])}{solid}</g>'
        )
    if words:
        groups.append(
            f'<g class="fw-words" font-family="{FONT}" fill="{ink}" stroke="#fff" stroke-width="0.9" '
            f'stroke-linejoin="round" style="paint-order:stroke">{"".join(words)}</g>'
        )
    return groups, used


def _style(used: list[Layer]) -> str:
    """Return the theme: rules on our class names only, so that all pictures on a page may repeat them."""
    colors = [(layer.css, layer.value.color) for layer in used if layer.value.color]
    light = "".join(f".fw-drawing .fw-{css}{{color:{color[0]}}}" for css, color in colors)
    dark = "".join(f"[data-jp-theme-light=false] .fw-drawing .fw-{css}{{color:{color[1]}}}" for css, color in colors)
    return (
        ".fw-drawing{color:var(--jp-content-font-color0,#000);max-width:100%;height:auto}"
        ".fw-drawing .fw-words{stroke:var(--jp-layout-color0,#fff)}"
        f"{light}@media screen{{{dark}}}"
        "@media print{.fw-drawing{color:#000;background:#fff}.fw-drawing .fw-words{stroke:#fff}}"
    )


def _view_box(page: Page, digits: int) -> str:
    return f'viewBox="0 0 {_number(page.width, digits)} {_number(page.height, digits)}"'


def _number(value: float, digits: int = 2) -> str:
    return f"{round(value, digits) + 0.0:.10g}"  # adding zero turns -0 into 0


def _path(mark: Stroke | Solid | Curve, height: float, digits: int) -> str:
    if isinstance(mark, Curve):
        return _curve(mark, height, digits)
    pair = f"%.{digits}f %.{digits}f"
    points = [pair % (x, height - y) for x, y in mark.points]
    return f"M{'L'.join(points)}{'Z' if isinstance(mark, Solid) or mark.closed else ''}"


def _curve(curve: Curve, height: float, digits: int) -> str:
    x, y = curve.center
    radius = _number(curve.radius, digits)

    def at(angle: float) -> str:
        u, v = x + curve.radius * cos(angle), y + curve.radius * sin(angle)
        return f"{u:.{digits}f} {height - v:.{digits}f}"

    # Two halves, because one SVG arc cannot go all the way round and is ill-conditioned when nearly so.
    sweep = max(-tau, min(tau, curve.sweep))
    flags = f"A{radius} {radius} 0 0 {0 if sweep > 0 else 1} "
    closed = "Z" if abs(sweep) == tau else ""
    return f"M{at(curve.start)}{flags}{at(curve.start + sweep / 2)}{flags}{at(curve.start + sweep)}{closed}"


def _label(label: Label, height: float, digits: int) -> str:
    x, y = _number(label.at[0], digits), _number(height - label.at[1], digits)
    turn = f' transform="rotate({_number(-degrees(label.angle))} {x} {y})"' if label.angle else ""
    anchor = "" if label.anchor == "start" else f' text-anchor="{label.anchor}"'
    size = label.height / CAPITALS
    bold = ' font-weight="600"' if label.bold else ""
    spans = _spans(label.text, size)
    # Set to the width that the layout took the words to have, they fit in whatever face there is.
    wide = _number(text_width(label.text, label.height, label.bold))
    fit = f' textLength="{wide}" lengthAdjust="spacingAndGlyphs"' if label.text else ""
    return f'<text x="{x}" y="{y}" font-size="{_number(size)}"{fit}{anchor}{bold}{turn}>{spans}</text>'


def _spans(text: str, size: float) -> str:
    spans: list[str] = []
    level = 0.0  # how far below the line the last words stand
    for words, lowered in pieces(text):
        drop = 0.25 * size if lowered else 0.0
        move = f' dy="{_number(drop - level)}"' if drop != level else ""
        smaller = f' font-size="{_number(SUBSCRIPT * size)}"' if lowered else ""
        spans.append(f"<tspan{move}{smaller}>{escape(words)}</tspan>" if move or smaller else escape(words))
        level = drop
    return "".join(spans)
