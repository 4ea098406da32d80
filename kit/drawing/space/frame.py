"""A view in space that the reader turns: an own small WebGL page in an iframe, the still inside it as fallback."""

import json
from base64 import b64encode
from functools import cache
from html import escape
from importlib.resources import files
from typing import Any

import numpy as np

from kit.core.errors import KitError
from kit.drawing.space.scene import STANDARD, Floats, Solid, View, paint
from kit.drawing.space.svg import PIXELS_PER_MM, view_svg

_POLICY = "default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'"
_STEPS = 32_000
"""Whole numbers from the middle of the view to its rim; a view of 1 m keeps 0.02 mm."""


def view_frame(view: View, *, height_px: int = 420, title: str) -> str:
    """Return an iframe that needs no network: drag, Ctrl and wheel, arrow keys and buttons turn and enlarge it.

    It is light, or dark where the page says so by the variable `--fw-scheme`, which a frame takes for its own scheme.

    Without script or WebGL, and on paper, it holds the still from the corner. `title` names the frame for those
    who cannot see it. The same inputs give the same text.

    Raises:
        KitError: the height is not between 120 and 4,000 px.
    """
    if not 120 <= height_px <= 4000:
        raise KitError(f"The height of a frame was given as {height_px} px; it must lie between 120 and 4000 px.")
    page = _page(view, title or view.title or "View in space", height_px)
    return (
        f'<iframe class="fw-space" title="{escape(title)}" sandbox="allow-scripts" height="{height_px}" '
        'style="display:block;box-sizing:border-box;width:100%;border:1px solid #bbb;'
        'color-scheme:var(--fw-scheme,light)" '
        f'srcdoc="{escape(page)}"></iframe>'
    )


def _page(view: View, title: str, height_px: int) -> str:
    data = json.dumps(_data(view), separators=(",", ":")).replace("<", "\\u003c")
    buttons = "".join(
        f'<button type="button" data-view="{name}" aria-pressed="false">{name.capitalize()}</button>'
        for name in STANDARD
    )
    return (
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="color-scheme" content="light dark">'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}"><title>{escape(title)}</title>'
        f"<style>{_text('turning.css')}</style></head><body>"
        f'<div id="still">{view_svg(view, "corner", 640, max(height_px - 20, 200), ids="still-view")}</div>'
        '<div id="live" class="waiting" hidden><canvas id="view" tabindex="0" role="img" '
        f'aria-label="{escape(title)}: {escape(view.words)}. Arrow keys turn it, plus and minus enlarge and reduce it."'
        '></canvas><div id="words" aria-hidden="true"></div>'
        f'<div id="bar" role="toolbar" aria-label="Views">{buttons}'
        '<button type="button" data-zoom="1.25" aria-label="Enlarge">+</button>'
        '<button type="button" data-zoom="0.8" aria-label="Reduce">&#8722;</button></div></div>'
        f'<script type="application/json" id="data">{data}</script>'
        f"<script>{shading()}{_text('turning.js')}</script></body></html>"
    )


@cache
def _text(name: str) -> str:
    return (files("kit.drawing.space") / name).read_text(encoding="utf-8")


def shading() -> str:
    """Return the script that every view in space begins with: how it is painted, and its camera."""
    return _text("shading.js")


def _data(view: View) -> dict[str, Any]:
    """Return the view as plain data: whole numbers about the middle, packed as base64."""
    low, high = view.box
    middle, reach = (low + high) / 2, float(np.linalg.norm(high - low)) / 2 or 1.0

    def packed(points: Floats) -> str:
        return _base64(np.round((points - middle) / reach * _STEPS).astype("<i2"))

    return {
        "solids": [_solid(solid, packed) for solid in view.solids],
        "lines": [
            {
                "segments": packed(np.stack([np.asarray(line.points)[:-1], np.asarray(line.points)[1:]], axis=1)),
                "ink": _rgb(line.ink),
                "width": round(line.width_mm * PIXELS_PER_MM, 2),
                "dashed": line.dashed,
            }
            for line in view.lines
        ],
        "marks": [
            {"text": mark.text, "at": np.round((np.asarray(mark.point) - middle) / reach, 5).tolist()}
            for mark in view.marks
        ],
        "views": {name: [camera.around, camera.up] for name, camera in STANDARD.items()},
        "steps": _STEPS,
    }


def _solid(solid: Solid, packed: Any) -> dict[str, Any]:
    shape = solid.shape
    wide = len(shape.corners) > 0xFFFF
    edges = _edges(solid)
    return {
        "corners": packed(shape.corners),
        "faces": _base64(shape.faces.astype("<u4" if wide else "<u2")),
        "wide": wide,
        "edges": packed(shape.corners[edges]),
        "fill": _rgb(solid.fill),
        "opacity": round(solid.opacity, 3),
    }


def _edges(solid: Solid) -> np.ndarray[Any, np.dtype[np.int64]]:
    """Return the ends (k, 2) of creases and borders by number of corner."""
    shape = solid.shape
    _, first = np.unique(shape.sides.reshape(-1), return_index=True)
    chosen = first[shape.sharp]
    face, side = chosen // 3, chosen % 3
    return np.stack([shape.faces[face, side], shape.faces[face, (side + 1) % 3]], axis=1)


def _rgb(name: str) -> list[float]:
    return [round(part / 255, 4) for part in bytes.fromhex(paint(name)[1:])]


def _base64(numbers: Any) -> str:
    return b64encode(np.ascontiguousarray(numbers).tobytes()).decode("ascii")
