"""Skins of several panels over a frame: one panel between each pair of neighboring edge curves."""

from collections.abc import Sequence
from dataclasses import dataclass

from kit.core.errors import KitError, near_misses
from kit.geometry.development.curves import Curve
from kit.geometry.development.develop import Development, develop


@dataclass(frozen=True)
class SkinPanel:
    """A panel of a skin: its name, the names of its two edge curves, and its development."""

    name: str
    edges: tuple[str, str]
    development: Development


def skin(
    frame: Sequence[Curve],
    panels: Sequence[tuple[str, str, str]] | None = None,
    *,
    chord: float = 0.2,
    offset: float = 0.0,
) -> tuple[SkinPanel, ...]:
    """Develop all panels of a skin.

    frame: edge curves with different names. panels: (name, edge, edge) for each panel, else one between each pair of
    neighbors in the frame. chord, offset: as in `develop`, mm.
    Raises: KitError for an edge that the frame does not have, or two edges of one name.
    """
    curves = {curve.name: curve for curve in frame}
    if len(curves) < len(frame):
        names = [curve.name for curve in frame]
        twice = next(name for name in names if names.count(name) > 1)
        raise KitError(f"The frame has two edges named {twice!r}; give each its own name")
    if panels is None:
        panels = [(f"panel {k + 1}", frame[k].name, frame[k + 1].name) for k in range(len(frame) - 1)]
    found = []
    for name, low, high in panels:
        for edge in (low, high):
            if edge not in curves:
                raise KitError(f"The {name} has no edge {edge!r} in the frame{near_misses(edge, list(curves))}")
        found.append(SkinPanel(name, (low, high), develop(curves[low], curves[high], chord=chord, offset=offset)))
    return tuple(found)


def shared_edges(panels: Sequence[SkinPanel]) -> dict[str, tuple[str, ...]]:
    """Return, for each edge curve that more than one panel has, the names of those panels: the seams of the skin."""
    owners: dict[str, list[str]] = {}
    for panel in panels:
        for edge in panel.edges:
            owners.setdefault(edge, []).append(panel.name)
    return {edge: tuple(names) for edge, names in owners.items() if len(names) > 1}
