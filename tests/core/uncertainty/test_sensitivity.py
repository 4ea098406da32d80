"""Sobol' indices against a function whose indices are known in closed form, and bad ranges."""

import pytest

from kit import model
from kit.core.errors import KitError
from kit.core.uncertainty import Influence, Sensitivity, sensitivity
from tests.core.model.small import blank


def test_a_product_has_known_indices() -> None:
    m = blank()
    x = m.given("x", "x", "1 mm", (0, 2), "one")
    y = m.given("y", "y", "1 mm", (0, 2), "two")
    m.result("product", "p", "mm^2")
    m.equals(x * y, "a product")
    found = {row.name: row for row in sensitivity(m.done().at(), "product").rows}
    # x y, both even on 0 to 2: the variances are 1/3 for each alone and 1/9 for both together, of 7/9 in all
    for name in ("x", "y"):
        assert found[name].first == pytest.approx(3 / 7, abs=0.02)
        assert found[name].total == pytest.approx(4 / 7, abs=0.02)


def test_shares_beyond_what_shares_can_be_are_not_settled() -> None:
    assert Sensitivity("r", (Influence("a", 0.5, 1.0),), 0.0, 1.0).settled
    assert not Sensitivity("r", (Influence("a", 0.1, 1.2),), 0.0, 1.0).settled


def test_bad_ranges_get_a_sentence() -> None:
    case = model("stop.deflection").at()
    for ranges, said in (
        ({"push": (20.0, 20.0)}, "range of push has no width"),
        ({"pussh": (1.0, 2.0)}, "no given 'pussh'"),
        ({"allowed": (1.0, 2.0)}, "rests on none of the givens"),
    ):
        with pytest.raises(KitError, match=said):
            sensitivity(case, "tip_error", ranges)
    with pytest.raises(KitError, match="no result 'tip'"):
        sensitivity(case, "tip")
