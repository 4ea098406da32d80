"""Small things that the views of the job page share: buttons, texts, questions."""

from __future__ import annotations

from functools import cache
from html import escape
from importlib.resources import files

import ipywidgets as w

from kit.sheet.style import panel_style
from kit.ui.idle import Action


def button(label: str, tooltip: str, action: Action, *, kind: str = "") -> w.Button:
    """Return a button; `kind` is a class of its looks, such as fw-main for what is done next."""
    made = w.Button(description=label, tooltip=tooltip)
    made.on_click(lambda _: action())
    if kind:
        made.add_class(kind)
    return made


def row(*children: w.Widget) -> w.HBox:
    """Return widgets side by side, that wrap where there is no room."""
    return w.HBox(children, _dom_classes=("fw-row",))


def line(text: str, *, fault: bool = False) -> str:
    """Return a line of text that is read out when it appears."""
    kind = 'class="fw-fault" role="alert"' if fault else 'role="status"'
    return f"<p {kind}>{escape(text)}</p>" if text else ""


def labeled(label: str, field: w.Widget, tooltip: str = "") -> w.VBox:
    """Return a field under its label, by which it is also known to who does not see it."""
    field.tooltip = tooltip or label
    field.description, field.style.description_width = label, "auto"
    return w.VBox([field], _dom_classes=("fw-labeled",))


class Question(w.VBox):
    """A question that comes before something that cannot be done without thought; it goes when it is answered."""

    def __init__(self, text: str, yes: str, action: Action, *, no: str = "Leave it") -> None:
        def answered(do: bool) -> None:
            self.children = ()
            if do:
                action()

        self.yes = button(yes, yes, lambda: answered(True), kind="fw-main")
        self.no = button(no, "do nothing", lambda: answered(False))
        super().__init__([w.HTML(line(text)), row(self.yes, self.no)], _dom_classes=("fw-ask-first",))


@cache
def page_style() -> str:
    """Return the style element of the page: the panel's rules, those of its tables of fields, and the page's own."""
    own = "".join((files("kit.ui") / name).read_text(encoding="utf-8") for name in ("panel/panel.css", "page/page.css"))
    return f"{panel_style()}<style>{own}</style>"
