"""Factors for small samples against scipy, which the printed ones must round."""

import math

import pytest
from scipy import stats

from kit.core.tables import table

SMALL = table("small_samples")


@pytest.mark.parametrize("name", SMALL.ids)
def test_factors(name: str) -> None:
    row = SMALL.row(name)
    parts = round(row["parts"])
    assert name == f"{parts} parts"
    assert row["t95"] == pytest.approx(stats.t.ppf(0.975, parts - 1), abs=0.0051)
    low, high = (math.sqrt((parts - 1) / stats.chi2.ppf(p, parts - 1)) for p in (0.975, 0.025))
    assert row["least95"] == pytest.approx(low, abs=0.0000501)
    assert row["most95"] == pytest.approx(high, abs=0.0000501)
