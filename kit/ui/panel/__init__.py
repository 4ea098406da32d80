"""Panels: ipywidgets over a model.

from kit.ui.panel import panel
panel("stop.deflection")
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from kit.ui.panel.model_panel import Panel, panel

__all__ = ["Panel", "panel"]


def __getattr__(name: str) -> Any:
    """Load the panel and its widgets on first use; the command lays out folders without them."""
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from kit.ui.panel import model_panel

    globals()[name] = getattr(model_panel, name)
    return globals()[name]
