"""Widths of words against the printed metrics of a common face, and boxes around curves."""

from importlib.resources import files
from math import pi

import pytest

from kit.drawing.marks import Box, Curve, Label, extent, pieces, text_width

WORDS = ["L = 1200 mm", "23 3/4 in", "β = 38.0°", "F = 60 N", "visible outline", "other position or neighboring part",
         "Section A–A (enlarged 5×)", "clamp", "MMWW", "0.062 mm", "iiill", "12 345.67 mm²"]  # fmt: skip


def _afm_width(text: str) -> float:
    """Width in mm of words set in Helvetica with capitals 2.5 mm high, by the metrics file that matplotlib ships."""
    afm = (files("matplotlib") / "mpl-data" / "fonts" / "pdfcorefonts" / "Helvetica.afm").read_text(encoding="latin-1")
    names = {"–": "endash", "°": "degree", "×": "multiply", "²": "twosuperior", "β": "germandbls"}
    widths: dict[str, float] = {}
    capitals = 0.0
    for line in afm.splitlines():
        if line.startswith("CapHeight"):
            capitals = float(line.split()[1])
        if line.startswith("C "):
            fields = dict(part.split(maxsplit=1) for part in line.split(" ; ") if " " in part.strip())
            widths[fields["N"].strip(" ;")] = float(fields["WX"])
            if int(fields["C"]) > 0:
                widths[chr(int(fields["C"]))] = float(fields["WX"])
    return sum(widths[names.get(c, c)] for c in text) / capitals * 2.5


@pytest.mark.parametrize("words", WORDS)
def test_the_estimate_holds_the_words_without_much_air(words: str) -> None:
    assert 0.95 * _afm_width(words) <= text_width(words, 2.5) <= 1.3 * _afm_width(words)


def test_subscripts_are_narrower() -> None:
    assert text_width("F_{max}", 2.5) == pytest.approx(text_width("F", 2.5) + 0.7 * text_width("max", 2.5))
    assert pieces("a_{b}c") == [("a", False), ("b", True), ("c", False)]
    assert pieces("plain_name") == [("plain_name", False)]
    assert pieces("open_{brace") == [("open", False), ("_{brace", False)]


def test_the_box_of_an_arc_ends_where_the_arc_does() -> None:
    # From 45° to 135°: the corners are (±√½·2, √2) and the top is 2.
    box = extent([Curve(None, (0, 0), 2, pi / 4, pi / 2)])  # type: ignore[arg-type]
    assert box == pytest.approx(Box(-1.414214, 1.414214, 1.414214, 2), abs=1e-6)
    back = extent([Curve(None, (0, 0), 2, 3 * pi / 4, -pi / 2)])  # type: ignore[arg-type]
    assert back == pytest.approx(box)


def test_the_box_of_turned_words() -> None:
    width = text_width("words", 2.5)
    box = extent([Label((0, 0), "words", "start", pi / 2)])
    assert box == pytest.approx(Box(-2.75, 0, 0.875, width))
    assert extent([]) is None
