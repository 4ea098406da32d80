"""Drawings: a scene per model, rendered as SVG. `figure` finds the function that draws a model."""

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from kit.drawing.scene import Scene
    from kit.quantity import Display

    Draw = Callable[[Mapping[str, float], Display], Scene]


def figure(model_name: str) -> "Draw":
    """Return the function that draws a model from the base values of all its symbols and the reader's
    display.

    Raises:
        KitError: no figure has this name; the message lists the nearest ones.
    """
    from importlib import import_module
    from pkgutil import iter_modules

    import kit.drawing.figures as figures
    from kit.errors import KitError, near_misses

    known = [module.name for module in iter_modules(figures.__path__)]
    wanted = model_name.replace(".", "_")
    if wanted not in known:
        names = [name.replace("_", ".", 1) for name in known]
        raise KitError(f"There is no figure for a model {model_name!r}{near_misses(model_name, names)}.")
    draw: Draw = import_module(f"kit.drawing.figures.{wanted}").draw
    return draw
