"""One of the pictures of what is built: which one it is, and for a view in space from where."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import ipywidgets as w

from kit.core.build import Build
from kit.drawing.space import STANDARD, Camera
from kit.sheet import build_section

if TYPE_CHECKING:
    from kit.ui.panel.build_view import BuildView

_WIDTH, _HEIGHT = 640, 420  # of a picture in CSS pixels: the page stands still while a control moves


class Slot(w.VBox):
    """One of the shape's pictures: which one, and for a view in space from where."""

    def __init__(self, build_view: BuildView, number: int) -> None:
        self.build_view, self.number = build_view, number
        self._quiet = False
        self.which = w.Dropdown(tooltip="the picture that is shown here")
        self.camera = w.ToggleButtons(
            options=list(STANDARD), value="corner", tooltips=[f"seen from: {name}" for name in STANDARD]
        )
        start = STANDARD["corner"]
        self.around = _turn("around", start.around, -180, 180, "degrees around from the front")
        self.up = _turn("up", start.up, -90, 90, "degrees up from level")
        self.html = w.HTML()
        self.space = w.VBox([self.camera, w.HBox([self.around, self.up], _dom_classes=("fw-row",))])
        self.camera.observe(self._stand, "value")
        for control in (self.which, self.around, self.up):
            control.observe(self._again, "value")
        super().__init__()
        self.add_class("fw-slot")

    def show(self, build: Build) -> None:
        """Show the picture that was chosen, of what is made now; nothing if there are too few."""
        names = [picture.name for picture in build.pictures]
        if len(names) <= self.number:
            self.children = ()
            return
        options = [(picture.title, picture.name) for picture in build.pictures]
        if list(self.which.options) != options:
            kept = self.which.value if self.which.value in names else names[self.number]
            self._quiet = True
            self.which.options, self.which.value = options, kept
            self._quiet = False
        self._draw(build)

    def _stand(self, change: dict[str, Any]) -> None:
        standard = STANDARD[change["new"]]
        self._quiet = True
        self.around.value, self.up.value = standard.around, standard.up
        self._quiet = False
        self._again(change)

    def _again(self, _change: object) -> None:
        if self.build_view.build is not None and not self._quiet:
            self._draw(self.build_view.build)

    def _draw(self, build: Build) -> None:
        self.html.value = build_section.live_picture(
            build.picture(self.which.value),
            self.build_view.panel.display,
            ids=f"shape{id(self)}",
            size=(_WIDTH, _HEIGHT),
            camera=Camera(self.around.value, self.up.value),
        )
        in_space = "fw-space" in self.html.value
        children = (self.which, *([self.space] if in_space else []), self.html)
        if self.children != children:
            self.children = children


def _turn(label: str, value: float, low: int, high: int, tooltip: str) -> w.IntSlider:
    return w.IntSlider(value=round(value), min=low, max=high, step=5, description=label, tooltip=tooltip)
