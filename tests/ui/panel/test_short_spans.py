"""A span that is shorter than a fraction of an inch still has a slider that moves within it."""

from kit.core.quantity import Display
from kit.subjects import model, names
from kit.ui.panel.field import Field

SHORT = 25.4  # in base units: an inch; about half of all spans


def _unheard(*_: object) -> None:
    pass


def test_every_slider_has_stops_inside_its_span_in_coarse_fractions_too() -> None:
    reader, checked = Display(system="in", denominator=8), 0
    for name in names():
        case = model(name).at()
        for given in case.model.free.values():
            if given.kind != "real" or given.span[1] - given.span[0] > SHORT:
                continue
            slider = Field(given, case.entries[given.name], reader, _unheard, _unheard, _unheard).control
            low, high = (reader.unit_for(given.unit).from_base(end) for end in given.span)
            assert low - 1e-9 <= slider.min < slider.max <= high + 1e-9, (name, given.name)
            assert (slider.max - slider.min) / slider.step > 5, (name, given.name)
            checked += 1
    assert checked > 100
