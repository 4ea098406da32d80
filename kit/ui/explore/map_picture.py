"""The picture of a map in the browser, on which a place is pointed at or chosen."""

from __future__ import annotations

from collections.abc import Callable
from importlib.resources import files
from typing import Any

import anywidget
import traitlets as t

from kit.drawing.map_svg import BOX


class MapPicture(anywidget.AnyWidget):
    """A map as SVG, and a `tip` as HTML beside the pointer.

    `moved` and `looked` are called with a place as shares of the plot's width and height.
    """

    _esm = (files("kit.ui.explore") / "map.js").read_text(encoding="utf-8")
    picture = t.Unicode().tag(sync=True)
    tip = t.Unicode().tag(sync=True)
    label = t.Unicode().tag(sync=True)
    box: t.List[float] = t.List(t.Float(), list(BOX)).tag(sync=True)
    design: t.List[float] = t.List(t.Float(), [0.5, 0.5]).tag(sync=True)

    def __init__(self, moved: Callable[[float, float], None], looked: Callable[[float, float], None]) -> None:
        self._calls = {"move": moved, "look": looked}
        super().__init__()
        self.on_msg(self._heard)

    def _heard(self, _: object, content: Any, _buffers: object) -> None:
        """Pass on what the browser says, if it is what a browser says."""
        said = content if isinstance(content, dict) else {}
        call, at = self._calls.get(str(said.get("what"))), said.get("at")
        if call and isinstance(at, list) and len(at) == 2 and all(isinstance(each, int | float) for each in at):
            call(float(at[0]), float(at[1]))
