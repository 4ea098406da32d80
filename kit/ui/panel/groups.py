"""Controls in groups that fold, by how often they change: sizes, what others give, tables, what is allowed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING

import ipywidgets as w

if TYPE_CHECKING:
    from kit.core.model import Calculation

SIZES, TABLES, RULES, OTHERS = "Sizes and settings", "From tables", "What is allowed, and rules", "From other parts"
FEW = 8  # controls that need no folding


def group_of(model: Calculation, name: str, *, linked: bool) -> str:
    """Return the group of a given: what another part gives, a table fills, what seldom changes, or the rest.

    Seldom changes what the statement says so of; where it says nothing, what has a source or only limits a result.
    """
    if linked:
        return OTHERS
    if any(name in pick.fills for pick in model.picks.values()):
        return TABLES
    given = model.free[name]
    if given.changes:
        return SIZES if given.changes == "often" else RULES
    bounds = any(limit.bound == name for limit in model.limits.values())
    used = any(name in relation.rests_on for relation in model.relations.values())
    return RULES if given.source or (bounds and not used) else SIZES


class Group(w.VBox):
    """Controls under a button that folds them."""

    def __init__(self, title: str, controls: Iterable[w.Widget], *, opened: bool = True) -> None:
        self.title, self.controls = title, list(controls)
        self.button = w.ToggleButton(value=opened, tooltip=f"show or fold: {title.lower()}")
        self.button.add_class("fw-group-head")
        self.button.observe(lambda _: self._fold(), "value")
        super().__init__(_dom_classes=("fw-group",))
        self._fold()

    def _fold(self) -> None:
        opened = self.button.value
        self.button.icon = "caret-down" if opened else "caret-right"
        self.button.description = self.title if opened else f"{self.title} ({len(self.controls)})"
        self.children = (self.button, *self.controls) if opened else (self.button,)


def in_groups(
    model: Calculation, fields: Mapping[str, w.Widget], picks: Mapping[str, w.Widget], linked: Callable[[str], bool]
) -> list[w.Widget]:
    """Return the controls of the givens in their order, each pick before the first given that it fills, in groups."""
    rows: dict[w.Widget, str] = {}
    for name, field in fields.items():
        group = group_of(model, name, linked=linked(name))
        rows |= {pick: group for key, pick in picks.items() if name in model.picks[key].fills and pick not in rows}
        rows[field] = group
    return grouped(rows)


def grouped(rows: Mapping[w.Widget, str]) -> list[w.Widget]:
    """Return controls in their order, each with its group's name; many are gathered under heads that fold them.

    What seldom changes comes last and folded.
    """
    titles = (SIZES, OTHERS, TABLES, RULES)
    groups = {title: [row for row, group in rows.items() if group == title] for title in titles}
    found = {title: controls for title, controls in groups.items() if controls}
    if len(rows) <= FEW or len(found) < 2:
        return list(rows)
    return [Group(title, controls, opened=title != RULES) for title, controls in found.items()]
