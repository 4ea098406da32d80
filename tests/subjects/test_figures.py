"""In no figure do words lie on words or beyond the rim: as stated, and at seeded designs of each model.

A run of all tests looks at every fifth of 200 designs, `pytest -m bench` at all of them.
"""

import numpy as np
import pytest

from kit.core.errors import KitError
from kit.core.model import Calculation
from kit.core.quantity import Display
from kit.drawing.marks import Label, label_corners
from kit.drawing.page import Page, lay_out
from kit.drawing.placing import overlaps
from kit.drawing.svg import PIXELS_PER_MM
from kit.subjects import model, names, subject
from tests.rules.test_possible_results import POINTS, everywhere

DESIGNS = 200
WIDTHS = (640, 470, 800)  # px: of a sheet, of a panel at 800 px, of a wide one
SYSTEMS = (Display(), Display(system="in"))


@pytest.mark.parametrize(
    ("name", "every"),
    [pytest.param(name, k, marks=[pytest.mark.bench] * (k == 1), id=f"{name}-{k}") for name in names() for k in (5, 1)],
)
def test_no_words_lie_on_words_or_beyond_the_rim(name: str, every: int) -> None:
    stated = model(name)
    drawn, found = 0, []
    for number, values in enumerate(designs(stated)[::every]):
        display = SYSTEMS[number // 3 % 2]
        try:
            scene = subject(name).draw(values, display)
        except KitError:
            continue  # that far from what is stated some designs cannot be drawn, and say so
        drawn += 1
        width = WIDTHS[number % 3] / PIXELS_PER_MM
        page = lay_out(scene, width, 0.75 * width, legend=True)
        found += [f"design {number}: {one.text!r} on {other.text!r}" for one, other in overlaps(page.marks)]
        found += [f"design {number}: {text!r} is cut off" for text in cut(page)]
    assert drawn > DESIGNS // every // 2
    assert not found, "\n".join(found[:5])


def designs(stated: Calculation) -> list[dict[str, float]]:
    """Return what is stated, and seeded designs in which all has a value, in base units."""
    columns = everywhere(stated)
    columns |= stated.compute(columns, list(stated.relations))
    known = np.all([np.isfinite(columns[name]) for name in stated.names], axis=0)
    picked = np.flatnonzero(known[:POINTS])[:DESIGNS]
    return [dict(stated.at().base), *({name: float(columns[name][at]) for name in stated.names} for at in picked)]


def cut(page: Page) -> list[str]:
    """Return the words that are not wholly on a page."""
    return [
        mark.text
        for mark in page.marks
        if isinstance(mark, Label)
        for x, y in label_corners(mark)
        if not (-1e-9 <= x <= page.width + 1e-9 and -1e-9 <= y <= page.height + 1e-9)
    ]
