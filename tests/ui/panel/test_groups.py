"""Controls gathered by how often they change, under heads that fold them."""

from collections.abc import Iterator

import ipywidgets as w

from kit.ui.panel import panel
from kit.ui.panel.groups import RULES, SIZES, TABLES, Group


def groups(widget: w.Widget) -> Iterator[Group]:
    if isinstance(widget, Group):
        yield widget
    for child in getattr(widget, "children", ()):
        yield from groups(child)


def test_what_is_allowed_and_what_tables_fill_stands_apart_from_sizes() -> None:
    made = panel("stop.deflection")
    found = {group.title: group for group in groups(made)}
    assert list(found) == [SIZES, TABLES, RULES]
    assert found[RULES].controls == [made.fields["allowed"]]
    assert made.picks["block_wood"] in found[TABLES].controls
    assert made.fields["block_modulus"] in found[TABLES].controls
    assert made.fields["push"] in found[SIZES].children
    gathered = [control for group in found.values() for control in group.controls]
    assert sorted(map(id, gathered)) == sorted(map(id, (*made.fields.values(), *made.picks.values())))


def test_the_statement_says_what_a_person_changes_often() -> None:
    """The allowance of a seam has a source, as rules have, but whoever sews sets it."""
    made = panel("cloth.skin")
    found = {group.title: group for group in groups(made)}
    assert made.fields["seam_allowance"] in found[SIZES].controls
    assert made.fields["cloth_width"] in found[SIZES].controls
    assert made.fields["thread_waste"] in found[RULES].controls


def test_a_head_folds_its_controls_and_says_how_many() -> None:
    rules = next(group for group in groups(panel("hood.shape")) if group.title == RULES)
    assert rules.children == (rules.button,), "what seldom changes is folded at first"
    assert f"({len(rules.controls)})" in rules.button.description
    rules.button.value = True
    assert rules.children[1:] == tuple(rules.controls)


def test_few_controls_are_not_gathered() -> None:
    assert list(groups(panel("bevel.wall"))) == []
