"""The form of one step of an intake: a field for each thing that it asks for, and its button."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import ipywidgets as w
import numpy as np

from kit.core.intake import Ask, Seen, Step
from kit.core.quantity import Display, parse, unit
from kit.ui.intake.upload import Upload

AXES = ("left to right", "front to back", "height")
NONE = "–"


class BoxField(w.VBox):
    """Three ranges that make a box, in millimeters or inches; `moved` is called when one of them changes."""

    def __init__(self, words: str, moved: Callable[[], None], display: Display) -> None:
        self._unit = display.unit_for(unit("mm"))
        digits = ".1f" if self._unit.text == "in" else ".0f"
        self.ranges = [
            w.FloatRangeSlider(
                description=f"{name}, {self._unit.text}",
                min=0.0,
                max=1.0,
                value=(0.0, 1.0),
                readout_format=digits,
                tooltip=f"{words}: {name}, {self._unit.text}",
            )
            for name in AXES
        ]
        self._size: tuple[tuple[float, float], ...] = ()
        for each in self.ranges:
            each.observe(lambda _: moved(), "value")
        super().__init__(self.ranges)

    @property
    def value(self) -> tuple[list[float], list[float]]:
        """The low and the high corner (3,) [mm]."""
        low, high = ([self._unit.to_base(each.value[end]) for each in self.ranges] for end in (0, 1))
        return low, high

    def fit(self, seen: Seen) -> None:
        """Let the ranges reach over what is seen; what was set stays where the size did not change."""
        least, most = (end / self._unit.factor for end in (seen.vertices.min(axis=0), seen.vertices.max(axis=0)))
        low, high = np.floor(least) - 1.0, np.ceil(most) + 1.0
        size = tuple(zip(low.tolist(), high.tolist(), strict=True))
        if size == self._size:
            return
        self._size = size
        for each, (least, most) in zip(self.ranges, size, strict=True):
            with each.hold_trait_notifications():
                each.min, each.max = min(least, each.min), max(most, each.max)
                each.value = (least, most)
                each.min, each.max = least, most
            each.step = max(round((most - least) / 400.0), 1)


class FileField(Upload):
    """A file that lies beside the job once it has arrived; `value` is then its name."""

    def __init__(self, words: str, folder: Path, endings: Sequence[str]) -> None:
        self.value = ""
        super().__init__(f"{words}, choose it or drop it here", folder, endings, self._arrived)

    def _arrived(self, name: str) -> None:
        self.value = name
        self.said = f"{name} is here"


class StepForm(w.VBox):
    """The fields of a step. `done` is called with the answers; `boxed` when its box was moved.

    A file that it asks for comes into `folder`, with one of the `endings`.
    """

    def __init__(
        self,
        step: Step,
        done: Callable[[Step, dict[str, Any]], None],
        boxed: Callable[[], None],
        display: Display,
        *,
        folder: Path,
        endings: Sequence[str],
    ) -> None:
        self.step = step
        self.fields: dict[str, Any] = {
            ask.name: FileField(ask.words, folder, endings) if ask.kind == "file" else _field(ask, boxed, display)
            for ask in step.asks
        }
        self.button = w.Button(description=step.title, button_style="primary", tooltip=step.words)
        self.button.add_class(f"fw-do-{step.name}")
        self.button.on_click(lambda _: done(step, self.answers()))
        super().__init__([w.HTML(f"<p>{step.words}</p>"), *self.fields.values(), self.button])
        self.add_class("fw-step")

    @property
    def box(self) -> BoxField | None:
        """The field of its box, where it asks for one."""
        return next((each for each in self.fields.values() if isinstance(each, BoxField)), None)

    def answers(self) -> dict[str, Any]:
        """Return what the fields say now."""
        return {name: field.value for name, field in self.fields.items()}

    def fit(self, seen: Seen) -> None:
        """Offer the spots, joints and parts that are there now."""
        names = {"joint": [way.name for way in seen.ways], "part": list(seen.parts)}
        for ask in self.step.asks:
            field = self.fields[ask.name]
            if ask.kind == "box":
                field.fit(seen)
            elif ask.kind == "spots":
                _offer(field, list(seen.spots), many=True)
            elif ask.kind == "spot":
                _offer(field, [(NONE, ""), *((name, name) for name in seen.spots)])
            elif ask.names:
                _offer(field, [(NONE, ""), *((name, name) for name in names[ask.names])])


def _offer(field: Any, options: list[Any], *, many: bool = False) -> None:
    """Give a field new options; what was chosen and is still there stays chosen."""
    before = field.value
    known = [option[1] if isinstance(option, tuple) else option for option in options]
    if list(field.options) == options:
        return
    field.options = options
    if many:
        field.value = tuple(each for each in before if each in known)
        field.rows = min(max(len(options), 2), 8)
    else:
        field.value = before if before in known else known[0]


def proposed(text: str, display: Display) -> str:
    """Return what stands in a field at first: a length in inches where the reader works in these, as round as it was.

    >>> proposed("500 ± 1 mm", Display(system="in"))
    '19.75 ± 0.05 in'
    """
    if display.system != "in" or not text.endswith(" mm"):
        return text
    length = parse(text, "mm")
    half = "" if length.half is None else f" ± {max(round(length.half / 25.4 / 0.05) * 0.05, 0.01):g}"
    size = round(length.value / 25.4 * 4.0) / 4.0 if abs(length.value) > 25.4 else round(length.value / 25.4, 2)
    return f"{size + 0.0:g}{half} in"


def _field(ask: Ask, boxed: Callable[[], None], display: Display) -> Any:
    if ask.kind == "box":
        return BoxField(ask.words, boxed, display)
    if ask.kind == "spots":
        return w.SelectMultiple(description=ask.words, options=[], tooltip=f"{ask.words}; Ctrl chooses several")
    if ask.kind in ("spot", "choice"):
        options: list[Any] = list(ask.options) or [(NONE, "")]
        return w.Dropdown(description=ask.words, options=options, tooltip=ask.words)
    return w.Text(description=ask.words, value=proposed(ask.default, display), tooltip=ask.words)
