"""A table as a card: every cell in its place, rows a fixed way apart, at full size."""

import pytest

from kit.core.errors import KitError
from kit.drawing.card import ROW, card_scene
from kit.drawing.svg import svg_file
from tests.drawing.reading import read

HEADS = ("Length", "Way")
ROWS = (("150 mm", "direct"), ("175 mm", "over the block"), ("200 mm", "<none>"))


def test_every_cell_stands_in_its_row_and_column() -> None:
    words = read(svg_file(card_scene("For the wall", HEADS, ROWS, ("a note",)))).words()
    at = {text: (float(item.attrib["x"]), float(item.attrib["y"])) for text, item in words.items()}
    for row in ROWS:
        assert at[row[0]][1] == at[row[1]][1]
        assert at[row[0]][0] == at["Length"][0] < at[row[1]][0] == at["Way"][0]
    assert at["175 mm"][1] - at["150 mm"][1] == pytest.approx(ROW, abs=1e-3)
    assert at["a note"][1] > at["200 mm"][1] > at["For the wall"][1]


@pytest.mark.parametrize(("heads", "rows"), [((), ()), (HEADS, (("one",),)), (HEADS, (("1", "2", "3"),))])
def test_a_table_with_holes_is_refused(heads: tuple[str, ...], rows: tuple[tuple[str, ...], ...]) -> None:
    with pytest.raises(KitError, match="every row needs as many cells"):
        card_scene("t", heads, rows)
