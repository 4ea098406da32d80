"""A model over two givens: the same as point by point, and chances against draws."""

from collections.abc import Mapping
from typing import Any

import numpy as np
import pytest

from kit.core.errors import KitError
from kit.core.model import NoValueError
from kit.core.model.grid import axes_of, grid, least_chance
from kit.subjects import model, names

PAGES = [name for name in names() if len(axes_of(model(name).at())) > 1]


@pytest.mark.parametrize("page", PAGES)
def test_a_grid_says_what_each_point_says(page: str) -> None:
    """Every model, at seeded points of a coarse grid: result and margins as the one case there has them."""
    case = model(page).at()
    rng = np.random.default_rng(7)
    across, up = rng.choice(axes_of(case), 2, replace=False)
    result = str(rng.choice(list(case.model.results)))
    made = grid(case, across, up, result, points=9)
    assert made.result.shape == (len(made.y), len(made.x))
    for _ in range(6):
        row, column = int(rng.integers(len(made.y))), int(rng.integers(len(made.x)))
        units = {name: case.model.givens[name].unit for name in (across, up)}
        at = {
            name: f"{float(units[name].from_base(base))!r} {units[name].text}"
            for name, base in ((across, made.x[column]), (up, made.y[row]))
        }
        try:
            there = case.changed(at, beyond=frozenset((across, up)))
            checks = there.checks
        except NoValueError:
            continue
        # A few givens follow their rows or rest on ± that a typed value leaves out; values do not.
        assert made.result[row, column] == pytest.approx(there.base[result], rel=1e-6, abs=1e-9)
        for check in checks:
            margin = check.margin
            assert margin is not None
            assert made.margins[check.name][row, column] == pytest.approx(margin, rel=1e-6, abs=1e-7)


def test_the_least_chance_is_never_above_what_is_drawn() -> None:
    """Boole's inequality holds for what a million draws give, within their own error."""
    case = model("stop.deflection").at(allowed="0.3 mm", long_reach="800 ± 20 mm")
    made = grid(case, "long_reach", "block_width", "tip_error", points=9)
    least = least_chance(case, made)
    rng = np.random.default_rng(3)
    for row, column in ((1, 3), (2, 4), (4, 5), (8, 8)):
        drawn: Mapping[str, Any] = {
            name: (made.x[column] if name == "long_reach" else made.y[row] if name == "block_width" else entry.base)
            + (entry.spread.draw(rng, 40_000) if entry.u and entry.given.kind == "real" else 0.0)
            for name, entry in case.entries.items()
        }
        found = case.compute(drawn, ["tip_error"])["tip_error"]
        share = float(np.mean(found <= drawn["allowed"]))
        assert least[row, column] <= share + 0.03


@pytest.mark.parametrize(
    ("across", "up", "result", "sentence"),
    [
        ("long_reach", "long_reach", "tip_error", "both axes are long_reach"),
        ("long_reach", "lenght", "tip_error", "'lenght' cannot be an axis"),
        ("long_reach", "end", "tip_error", "'end' cannot be an axis"),
        ("long_reach", "push", "tip", "no result 'tip'"),
    ],
)
def test_what_cannot_be_a_map_gets_a_sentence(across: str, up: str, result: str, sentence: str) -> None:
    with pytest.raises(KitError, match=sentence):
        grid(model("stop.deflection").at(), across, up, result)
    with pytest.raises(KitError, match="has no length"):
        grid(model("stop.deflection").at(), "long_reach", "push", "tip_error", ends=((5.0, 5.0), None))
