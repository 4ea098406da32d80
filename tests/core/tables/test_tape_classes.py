"""Accuracy classes of tapes as printed."""

import pytest

from kit.core.tables import table

# Directive 2014/32/EU, Annex X (MI-008), chapter I, table 1, read via legislation.gov.uk/uksi/2016/1153/schedule/1I:
# a in mm, b (mm for each meter), c in mm.
PRINTED = {"I": (0.1, 0.1, 0.1), "II": (0.3, 0.2, 0.2), "III": (0.6, 0.4, 0.3)}


@pytest.mark.parametrize("name", PRINTED)
def test_classes_as_printed(name: str) -> None:
    row = table("tape_classes").row(name)
    a, b, c = PRINTED[name]
    assert (row["base_error"], row["surface_error"]) == pytest.approx((a, c))
    assert row["growth"] * 1000 == pytest.approx(b)
    assert row.entry("base_error").confidence == "read"
