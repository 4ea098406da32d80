"""The surface of an intake in a view that is turned: drawn with fewer faces, touched on all of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from importlib.resources import files
from typing import Any

import anywidget
import numpy as np
import traitlets as t
from numpy.typing import NDArray

from kit.core.intake import Seen
from kit.drawing.space.frame import shading
from kit.drawing.space.scene import paint
from kit.geometry.mesh import Scan, cast, lighter, nearest

Array = NDArray[np.float64]
Mesh = tuple[Array, NDArray[np.int64]]
MOST_FACES = 120_000  # that are drawn
STILL = [1.0, 0.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 1.0, 0.0]
PARTS = ("machine", "cloth", "accent", "wood", "purple")  # colors of what moves, one after the other
EDGES = [(0, 1), (1, 3), (3, 2), (2, 0), (4, 5), (5, 7), (7, 6), (6, 4), (0, 4), (1, 5), (2, 6), (3, 7)]


class TurningView(anywidget.AnyWidget):
    """A surface to turn and touch. `touched` gets a point (3,) of it and the size of a pixel, `nudged` a way (3,).

    What goes to the browser is in shares of half the picture's size about its middle. `picture` counts the pictures:
    what is asked names the one that it was asked of, and of one that is gone nothing is taken; `late` is then called.
    `answered` is the number of what was asked last.
    """

    _esm = "\n".join([shading(), (files("kit.ui.intake") / "view.js").read_text(encoding="utf-8")])
    label = t.Unicode("Nothing to see yet").tag(sync=True)
    corners = t.Bytes().tag(sync=True)
    faces = t.Bytes().tag(sync=True)
    groups: t.List[Any] = t.List().tag(sync=True)
    lines: t.List[Any] = t.List().tag(sync=True)
    spots: t.List[Any] = t.List().tag(sync=True)
    home = t.Int(0).tag(sync=True)
    picture = t.Int(0).tag(sync=True)
    answered = t.Int(0).tag(sync=True)

    def __init__(
        self,
        touched: Callable[[Array | None, float], None],
        nudged: Callable[[Array], None],
        deleted: Callable[[], None],
        late: Callable[[], None],
    ) -> None:
        self._touched, self._nudged, self._deleted, self._late = touched, nudged, deleted, late
        self._seen: Seen | None = None
        self._result: Mesh | None = None
        self._middle, self._reach = np.zeros(3), 1.0
        super().__init__()
        self.on_msg(self._heard)

    def show(self, seen: Seen | None, chosen: str, result: Mesh | None = None) -> None:
        """Show what is seen, one spot chosen; a surface goes to the browser only where it is another one."""
        before, self._seen = self._seen, seen
        if seen is None:
            self.corners, self.faces, self.groups, self.lines, self.spots = b"", b"", [], [], []
            self.label = "Nothing to see yet"
            return
        same = before is not None and before.vertices is seen.vertices and before.faces is seen.faces
        if not (same and before is not None and np.array_equal(before.part, seen.part) and result is self._result):
            turned = before is None or before.upright != seen.upright
            self._result = result
            self._fill(seen, home=turned)
        axes = [self._line(ends, "red", dashed=True) for ends in seen.axes.values()]
        self.lines = axes
        self.spots = [
            {"name": name, "at": self._share(place).tolist(), "chosen": name == chosen}
            for name, place in seen.spots.items()
        ]
        named = ", ".join(seen.spots) or "none yet"
        self.label = (
            f"The scan, {len(seen.faces):,} faces. Spots: {named}. Moving parts: {', '.join(seen.parts) or 'none'}"
        )

    def frame(self, box: tuple[list[float], list[float]] | None) -> None:
        """Show the edges of a box beside the axes, or none."""
        if self._seen is None:
            return
        lines = [self._line(ends, "red", dashed=True) for ends in self._seen.axes.values()]
        if box is not None:
            low, high = (np.asarray(end) for end in box)
            corners = [low + np.array([n & 1, n >> 1 & 1, n >> 2]) * (high - low) for n in range(8)]
            lines += [self._line(np.array([corners[one], corners[other]]), "blue") for one, other in EDGES]
        self.lines = lines

    def move(self, values: Mapping[str, float]) -> None:
        """Show the machine with its joints at these values, base units, by name."""
        if self._seen is None:
            return
        moves = [STILL, *(self._matrix(move) for move in self._seen.moves(values))]
        with self.hold_sync():
            self.groups = [{**each, "move": moves[each["part"] + 1]} for each in self.groups]
            self.picture += 1

    def _fill(self, seen: Seen, *, home: bool) -> None:
        low, high = seen.vertices.min(axis=0), seen.vertices.max(axis=0)
        if self._result is not None:
            low, high = np.minimum(low, self._result[0].min(axis=0)), np.maximum(high, self._result[0].max(axis=0))
        self._middle, self._reach = (low + high) / 2.0, float(np.linalg.norm(high - low)) / 2.0
        whole = Scan(seen.vertices, seen.faces)
        corners, faces, groups, first, shift = [], [], [], 0, 0
        for part in range(-1, len(seen.parts)):
            chosen = seen.part == part
            if not chosen.any():
                continue
            less = lighter(whole.kept(chosen), max(1000, int(MOST_FACES * chosen.mean())))
            color = "metal" if part < 0 else PARTS[part % len(PARTS)]
            groups.append(self._group(part, 3 * first, less.faces, color, 1.0))
            corners.append(less.vertices)
            faces.append(less.faces + shift)
            first, shift = first + len(less.faces), shift + len(less.vertices)
        if self._result is not None:
            groups.append(self._group(-1, 3 * first, self._result[1], "ghost", 0.35))
            corners.append(self._result[0])
            faces.append(self._result[1] + shift)
        with self.hold_sync():
            self.corners = self._share(np.concatenate(corners)).astype("<f4").tobytes()
            self.faces = np.concatenate(faces).astype("<u4").tobytes()
            self.groups = groups
            self.home += int(home)
            self.picture += 1

    def _group(self, part: int, first: int, faces: Any, color: str, opacity: float) -> dict[str, Any]:
        fill = [int(paint(color)[at : at + 2], 16) / 255.0 for at in (1, 3, 5)]
        return {"part": part, "first": first, "count": 3 * len(faces), "fill": fill, "opacity": opacity, "move": STILL}

    def _line(self, points: Array, color: str, *, dashed: bool = False) -> dict[str, Any]:
        ink = [int(paint(color)[at : at + 2], 16) / 255.0 for at in (1, 3, 5)]
        return {"points": self._share(points).tolist(), "ink": ink, "dashed": dashed}

    def _share(self, points: Array) -> Array:
        shares: Array = (np.asarray(points) - self._middle) / self._reach
        return shares

    def _matrix(self, move: Array) -> list[float]:
        """Return a motion (4, 4) of the surface as one of shares, its three rows."""
        shift = (move[:3, :3] @ self._middle + move[:3, 3] - self._middle) / self._reach
        return [float(each) for each in np.c_[move[:3, :3], shift].ravel()]

    def _heard(self, _: object, content: dict[str, Any], __: object) -> None:
        try:
            if self._seen is not None and content.get("picture") == self.picture:
                self._answer(content)
            else:
                self._late()
        finally:
            self.answered = int(content.get("number", 0))

    def _answer(self, content: dict[str, Any]) -> None:
        assert self._seen is not None
        kind = content.get("kind")
        if kind == "touch":
            start, way = np.array(content["from"], dtype=float), np.array(content["way"], dtype=float)
            scan = Scan(self._seen.vertices, self._seen.faces)
            touch = cast(scan, self._middle + self._reach * start, way)
            self._touched(None if touch is None else touch.point, self._reach * float(content["pixel"]))
        elif kind == "nudge":
            self._nudged(self._reach * np.array(content["by"], dtype=float))
        elif kind == "delete":
            self._deleted()

    def nearest(self, place: Array) -> Array:
        """Return the point (3,) of the surface that is nearest to a place (3,)."""
        assert self._seen is not None
        return nearest(Scan(self._seen.vertices, self._seen.faces), place).point
