"""Labels of axes: what does not fit is cut short in its words, never in its unit."""

from kit.drawing.axes_svg import fitted


def test_a_label_that_is_too_long_keeps_its_unit_whole() -> None:
    label = "from the clamp's middle to the tip of the long end in mm"
    short = fitted(label, 300.0)
    assert short.endswith("… in mm")
    assert label.startswith(short.removesuffix("… in mm"))
    assert len(short) <= 44
    assert fitted(label, 1000.0) == label
    assert fitted("share of all boards that are cut", 100.0).endswith("…")
