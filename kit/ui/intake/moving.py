"""A slider for each joint: the machine moves in the view, and where it stands is taken as an end of its travel."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import ipywidgets as w

from kit.core.intake import Way
from kit.core.quantity import unit

Ends = Callable[[str, str, str], None]


class Moving(w.VBox):
    """The sliders: `moved` gets the joints' values in base units by name, `ended` a joint and both its ends."""

    def __init__(self, moved: Callable[[Mapping[str, float]], None], ended: Ends) -> None:
        self._moved, self._ended = moved, ended
        self._ways: tuple[Way, ...] = ()
        self.sliders: dict[str, w.FloatSlider] = {}
        super().__init__()
        self.add_class("fw-moving")

    @property
    def values(self) -> dict[str, float]:
        """Where each joint stands, base units."""
        return {way.name: unit(way.unit).to_base(self.sliders[way.name].value) for way in self._ways}

    def fit(self, ways: tuple[Way, ...]) -> None:
        """Offer the joints that are there now, each at 0, as scanned."""
        if ways == self._ways:
            self.rest()
            return
        self._ways, self.sliders = ways, {}
        self.children = [self._row(way) for way in ways]

    def rest(self) -> None:
        """Move every joint back to where it was scanned."""
        for slider in self.sliders.values():
            slider.value = 0.0

    def _row(self, way: Way) -> w.Widget:
        of = unit(way.unit)
        low, high = (round(of.from_base(end), 4) + 0.0 for end in (way.low, way.high))
        least, most = (round(of.from_base(end), 4) for end in way.widest)
        slider = w.FloatSlider(
            description=f"{way.name}, {way.unit}",
            min=min(low, least),
            max=max(high, most),
            value=0.0,
            step=1.0,
            readout_format=".1f",
            tooltip=f"moves the {way.name} in the view; its limits are {low:g} to {high:g} {way.unit}",
        )
        slider.observe(lambda _: self._moved(self.values), "value")
        self.sliders[way.name] = slider

        def button(words: str, at: int) -> w.Button:
            made = w.Button(description=words, tooltip=f"the {way.name} goes no farther than where the slider stands")

            def end(_: object) -> None:
                ends = [low, high]
                ends[at] = round(slider.value, 4)
                self._ended(way.name, *(f"{each:g} {way.unit}" for each in ends))

            made.on_click(end)
            return made

        limits = w.HTML(f"<span>limits {low:g} to {high:g} {way.unit}</span>")
        return w.HBox(
            [slider, button("Least is here", 0), button("Greatest is here", 1), limits], _dom_classes=("fw-row",)
        )
