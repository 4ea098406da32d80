"""Small things that the views of the job page share: buttons, texts, questions, work between other work."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from html import escape
from importlib.resources import files

import ipywidgets as w

from kit.sheet.style import panel_style

_PAUSE = 0.02  # seconds in which the kernel answers a person between two steps

Action = Callable[[], object]


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
    return w.VBox([w.HTML(f'<span class="fw-name">{escape(label)}</span>'), field], _dom_classes=("fw-labeled",))


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


class Idle:
    """Steps done one by one between the kernel's other work; all at once where there is no loop, so nobody waits."""

    def __init__(self, steps: Iterable[Action], *, first: float = _PAUSE) -> None:
        """Begin with the steps after `first` seconds."""
        self._steps: Iterator[Action] = iter(steps)
        self._waiting: asyncio.TimerHandle | None = None
        try:
            self._loop = asyncio.get_running_loop()
        except RuntimeError:
            for step in self._steps:
                step()
        else:
            self._waiting = self._loop.call_later(first, self._next)

    def stop(self) -> None:
        """Do none of the steps that are left."""
        if self._waiting is not None:
            self._waiting.cancel()
            self._waiting = None

    def _next(self) -> None:
        step = next(self._steps, None)
        if step is None:
            self._waiting = None
            return
        step()
        self._waiting = self._loop.call_later(_PAUSE, self._next)


@cache
def page_style() -> str:
    """Return the style element of the page: the panel's rules and the page's own."""
    return f"{panel_style()}<style>{(files('kit.ui.page') / 'page.css').read_text(encoding='utf-8')}</style>"
