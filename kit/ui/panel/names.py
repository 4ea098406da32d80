"""Names for those who do not see a panel: of its sliders, whose widgets give none."""

from __future__ import annotations

from importlib.resources import files

import anywidget


class Names(anywidget.AnyWidget):
    """Takes no room in the panel that it lies in, and names every slider there after its tooltip."""

    _esm = (files("kit.ui.panel") / "names.js").read_text(encoding="utf-8")
