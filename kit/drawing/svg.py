"""A scene as SVG text: inline for panels and sheets, or a standalone file in true millimeters."""

import re
from collections import defaultdict
from html import escape
from math import cos, degrees, sin, tau

from kit.drawing.layers import Layer
from kit.drawing.marks import SUBSCRIPT, Curve, Label, Mark, Solid, Stroke, pieces
from kit.drawing.page import Page, lay_out
from kit.drawing.scene import Scene
from kit.errors import KitError

PIXELS_PER_MM = 96 / 25.4
"""CSS pixels: paper millimeters are true on a printed sheet and nearly so on a screen."""
CAPITALS = 0.716
"""Height of capital letters in a common sans-serif face, as a share of the font size."""
TALLEST = 0.75
"""Height of the box, as a share of its width, where none is asked for."""
TONES = {"light": 0.07, "medium": 0.16, "strong": 0.3}


def svg(
    scene: Scene,
    width_px: float = 640,
    height_px: float | None = None,
    *,
    ids: str = "figure",
    legend: bool = True,
) -> str:
    """Return a scene as inline SVG for HTML, `width_px` wide.

    With `height_px` the box has exactly this height, so a page stands still while a slider moves; without, the height
    follows the content up to three quarters of the width. `ids` begins every id: give each picture on a page its own.
    Colors follow JupyterLab's theme variables where there are any, black on white otherwise and in print.

    Raises:
        KitError: the box has no size, or `ids` is not a letter followed by letters, digits, ``-`` or ``_``.
    """
    for name, given in (("width", width_px), ("height", height_px)):
        if given is not None and not 0 < given < float("inf"):
            raise KitError(f"The {name} of a picture was given as {given:g} px; it must be more than 0 px.")
    _check_ids(ids)
    box = height_px if height_px is not None else TALLEST * width_px
    page = lay_out(scene, width_px / PIXELS_PER_MM, box / PIXELS_PER_MM, legend=legend)
    height = height_px if height_px is not None else width_px * page.height / page.width
    size = f'width="{_number(width_px)}" height="{_number(height)}"'
    return _document(scene, page, size, ids, _THEMED, 2)


def svg_file(scene: Scene, scale: float = 1.0, *, legend: bool = False) -> str:
    """Return a scene as a standalone SVG file whose user unit is one millimeter on paper.

    `scale` is paper mm per model mm, 1 for full size; views with their own magnification are that much larger.

    Raises:
        KitError: the scale is not a number above 0.
    """
    if not 0 < scale < float("inf"):
        raise KitError(f"A drawing was asked for at scale {scale:g}; the scale must be a number above 0.")
    page = lay_out(scene, 0.0, 0.0, legend=legend, scale=scale)
    size = f'xmlns="http://www.w3.org/2000/svg" width="{_number(page.width, 4)}mm" height="{_number(page.height, 4)}mm"'
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n' + _document(scene, page, size, "drawing", _PLAIN, 4) + "\n"
    )


def _check_ids(ids: str) -> None:
    if not re.fullmatch(r"[A-Za-z][A-Za-z0-9_-]*", ids):
        raise KitError(
            f"A picture's ids were to begin with {ids!r}; use a letter, then letters, digits, '-' or '_'."
        )


def _document(scene: Scene, page: Page, size: str, ids: str, style: str, digits: int) -> str:
    fills: list[str] = []
    lines: defaultdict[Layer, list[str]] = defaultdict(list)
    words: list[str] = []
    for mark in page.marks:
        if isinstance(mark, Label):
            words.append(_label(mark, page.height, digits))
            continue
        path = _path(mark, page.height, digits)
        if isinstance(mark, Solid):
            lines[mark.layer].append(f'<path class="solid" d="{path}"/>')
            continue
        if mark.fill:
            fills.append(f'<path opacity="{TONES[mark.fill]}" d="{path}"/>')
        lines[mark.layer].append(f'<path d="{path}"/>')
    parts = [
        f'<svg class="fw-drawing" {size} viewBox="0 0 {_number(page.width, digits)} {_number(page.height, digits)}" '
        f'role="img" aria-labelledby="{ids}-title {ids}-desc">',
        f'<title id="{ids}-title">{escape(scene.title)}</title><desc id="{ids}-desc">{escape(scene.alt)}</desc>',
        f"<style>{style}</style>",
    ]
    if fills:
        parts.append(f'<g class="fw-fill">{"".join(fills)}</g>')
    parts += [f'<g class="fw-{layer.css}">{"".join(lines[layer])}</g>' for layer in Layer if layer in lines]
    if words:
        parts.append(f'<g class="fw-words">{"".join(words)}</g>')
    parts.append("</svg>")
    return "\n".join(parts)


def _number(value: float, digits: int = 2) -> str:
    return f"{round(value, digits) + 0.0:.10g}"  # adding zero turns -0 into 0


def _path(mark: Stroke | Solid | Curve, height: float, digits: int) -> str:
    if isinstance(mark, Curve):
        return _curve(mark, height, digits)
    points = [f"{_number(x, digits)} {_number(height - y, digits)}" for x, y in mark.points]
    return f"M{'L'.join(points)}{'Z' if isinstance(mark, Solid) or mark.closed else ''}"


def _curve(curve: Curve, height: float, digits: int) -> str:
    x, y = curve.center
    radius = _number(curve.radius, digits)

    def at(angle: float) -> str:
        return f"{_number(x + curve.radius * cos(angle), digits)} {_number(height - y - curve.radius * sin(angle), digits)}"

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
    return f'<text x="{x}" y="{y}" font-size="{_number(size)}"{anchor}{bold}{turn}>{_spans(label.text, size)}</text>'


def _spans(text: str, size: float) -> str:
    spans: list[str] = []
    down = 0.0  # what the next words have to rise again
    for words, lowered in pieces(text):
        if lowered:
            down = 0.25 * size
            spans.append(
                f'<tspan dy="{_number(down)}" font-size="{_number(SUBSCRIPT * size)}">{escape(words)}</tspan>'
            )
        elif down:
            spans.append(f'<tspan dy="{_number(-down)}">{escape(words)}</tspan>')
            down = 0.0
        else:
            spans.append(escape(words))
    return "".join(spans)


def _style(ink: str, paper: str, extra: str) -> str:
    rules = [
        f".fw-drawing{{color:{ink};font-family:Arial,Helvetica,'Liberation Sans',sans-serif}}",
        ".fw-drawing path{fill:none;stroke:currentColor;stroke-linejoin:round}",
        ".fw-drawing .solid,.fw-drawing .fw-fill path{fill:currentColor;stroke:none}",
        f".fw-drawing text{{fill:currentColor;stroke:{paper};stroke-width:.9;stroke-linejoin:round;paint-order:stroke}}",
    ]
    for layer in Layer:
        kind = layer.value
        dashes = (
            f";stroke-dasharray:{' '.join(_number(part, 3) for part in kind.dashes)}" if kind.pattern else ""
        )
        color = f"color:{kind.color};" if kind.color else ""
        rules.append(f".fw-drawing .fw-{layer.css}{{{color}stroke-width:{_number(kind.width)}{dashes}}}")
    return "".join(rules) + extra


_THEMED = _style(
    "var(--jp-content-font-color0,#000)",
    "var(--jp-layout-color0,#fff)",
    ".fw-drawing{max-width:100%;height:auto}"
    "@media print{.fw-drawing{color:#000}.fw-drawing text{stroke:#fff}}",
)
_PLAIN = _style("#000", "#fff", "")
